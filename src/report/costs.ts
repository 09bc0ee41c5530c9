/** Costs: what one good piece of each product costs, the least price that covers it, and what today's leaves. */
import { once } from '../once.ts';
import { factsDuring } from '../among.ts';
import type { Book } from '../book.ts';
import type { OverheadBasis } from '../groups.ts';
import { ZERO } from '../number/decimal.ts';
import { booked } from '../reckon/booked.ts';
import { openings } from '../reckon/opening.ts';
import type { Span } from '../number/date.ts';
import { PIECE_PARTS } from '../reckon/piece-cost.ts';
import {
  CHANNEL_KINDS,
  type KindPrice,
  type MeanPrice,
  meanPrice,
  retailOf,
} from '../reckon/kind-price.ts';
import { belowCost, productCosts, type ProductCost } from '../reckon/product-cost.ts';
import { channelsInWords, costlessInWords, overheadInWords, workInWords } from './cost-words.ts';
import { moneyColumn, rateColumn, spanInWords, tableHead, textColumn } from './head.ts';
import type { Cell, Column, Row, Table } from './table.ts';
import { changesInWords } from './changed-words.ts';
import type { Flows } from '../reckon/flows.ts';

/** Which floors go first where there is no room: those that are mostly near another one. */
const FLOOR_DROPS = { direct: 2, fair: 5, online: 6, wholesale: 3, consignment: 1 } as const;

function columnsFor(book: Book): Column[] {
  const kinds = new Set([...book.channels.values()].map(({ kind }) => kind));
  const floors = CHANNEL_KINDS.map((kind) => {
    const more = { drop: FLOOR_DROPS[kind], dataOnly: !kinds.has(kind) };
    return moneyColumn(floorKey(kind), `Floor ${kind}`, more);
  });
  const margins = CHANNEL_KINDS.map((kind) =>
    rateColumn(marginKey(kind), `Margin ${kind}`, { dataOnly: true }),
  );
  return [
    { key: 'product', title: 'Product', type: 'id' },
    textColumn('name', 'Name', { drop: 8 }),
    { key: 'made', title: 'Made', type: 'count', drop: 9 },
    { key: 'good', title: 'Good', type: 'count', drop: 9 },
    ...PIECE_PARTS.map((part) => rateColumn(part, part, { dataOnly: true })),
    rateColumn('lossUplift', 'Loss uplift', { dataOnly: true }),
    rateColumn('total', 'Cost'),
    ...floors,
    rateColumn('price', 'Price'),
    rateColumn('margin', 'Margin'),
    rateColumn('perHour', 'An hour'),
    moneyColumn('secondPrice', 'Price of a second', { dataOnly: true }),
    rateColumn('marginSecond', 'Margin of a second', { dataOnly: true }),
    rateColumn('perHourSecond', 'An hour of a second', { dataOnly: true }),
    moneyColumn('wholesalePrice', 'Wholesale price', { dataOnly: true }),
    ...margins,
    { key: 'belowCost', title: 'Is below cost', type: 'flag', dataOnly: true },
    textColumn('belowAt', 'Below cost'),
    { key: 'estimated', title: 'Estimated', type: 'flag', drop: 7 },
  ];
}

/** One row per product, what pays least for an hour first; from the lots that came out in the span. */
export function costsTable(
  book: Book,
  flows: Flows,
  asked: { span: Span; by: OverheadBasis },
): Table {
  const { asOf } = flows.stock;
  const { overhead, products } = productCosts(book, flows, asked);
  const costs = products.toSorted(byPay);
  return {
    report: 'costs',
    title: `What one good piece costs, ${spanInWords(asked.span)}`,
    ...tableHead(book, asOf),
    columns: columnsFor(book),
    rows: costs.map((cost) => rowOf(book, cost)),
    notes: [
      ...belowInWords(costs),
      `Margin and An hour are at today's price, ${soldWhere(costs)}.`,
      ...channelsInWords(costs),
      workInWords(book, asOf),
      ...changesInWords(
        book,
        costs.map(({ product }) => product.id),
        { from: asked.span.from, to: asked.span.to < asOf ? asked.span.to : asOf },
      ),
      ...overheadInWords(book, overhead),
      ...estimatedInWords(costs),
      ...thereBeforeInWords(book, flows),
      ...costlessInWords(book, flows, costs),
      ...unpricedInWords(costs),
    ],
    behind: once(() => costs.map(({ lots }) => behindLots(lots))),
  };
}

/** Ids of lots, then of the firings that they went through, each once. */
export function behindLots(lots: ProductCost['lots']): string[] {
  const firings = lots.flatMap(({ passes }) => passes.map(({ firing }) => firing.id));
  return [...lots.map(({ lot }) => lot.id), ...new Set(firings)];
}

/** By kind of channel, the products that today's prices sell below cost there; then those of seconds. */
function belowInWords(costs: readonly ProductCost[]): string[] {
  const kinds = CHANNEL_KINDS.flatMap((kind) => {
    const below = costs.filter((cost) => belowCost(cost).some((price) => price.kind === kind));
    const ids = below.map(({ product }) => product.id);
    return ids.length === 0 ? [] : [`${kind} (${ids.join(', ')})`];
  });
  const seconds = costs.filter(({ second }) => second?.margin?.lt(ZERO));
  const ids = seconds.map(({ product }) => product.id);
  const places = ids.length === 0 ? kinds : [...kinds, `seconds (${ids.join(', ')})`];
  return places.length === 0 ? [] : [`Sold below cost: ${places.join('; ')}.`];
}

function rowOf(book: Book, cost: ProductCost): Row {
  const { product, prices } = cost;
  const sold = soldOf(cost);
  const at = (kind: KindPrice['kind']): KindPrice | undefined =>
    prices.find((each) => each.kind === kind);
  return {
    product: product.id,
    name: product.name,
    made: cost.made,
    good: cost.good,
    ...cost.cost.parts,
    lossUplift: cost.cost.uplift,
    total: cost.cost.total,
    ...byKind((kind) => [floorKey(kind), at(kind)?.floor ?? null]),
    price: sold?.price ?? product.price ?? null,
    margin: sold?.margin ?? null,
    perHour: sold?.perHour ?? null,
    secondPrice: product.second ? booked(book, product.second) : null,
    marginSecond: cost.second?.margin ?? null,
    perHourSecond: cost.second?.perHour ?? null,
    wholesalePrice: product.wholesale ? booked(book, product.wholesale) : null,
    ...byKind((kind) => [marginKey(kind), at(kind)?.margin ?? null]),
    belowCost: belowCost(cost).length > 0,
    belowAt: wordsOf(cost),
    estimated: cost.estimated,
  };
}

function byKind(cell: (kind: KindPrice['kind']) => [string, Cell]): Row {
  return Object.fromEntries(CHANNEL_KINDS.map(cell));
}

function floorKey(kind: KindPrice['kind']): string {
  return `floor${capital(kind)}`;
}

function marginKey(kind: KindPrice['kind']): string {
  return `margin${capital(kind)}`;
}

function capital(word: string): string {
  return word.charAt(0).toUpperCase() + word.slice(1);
}

/** Today's price and what it leaves; of a product without one, what its lots' own prices do on average. */
function soldOf({
  product,
  prices,
  lotPrices,
  cost,
}: ProductCost): KindPrice | MeanPrice | undefined {
  return product.price ? retailOf(prices) : meanPrice(lotPrices, cost);
}

function soldWhere(costs: readonly ProductCost[]): string {
  const kind = costs.map(({ prices }) => retailOf(prices)?.kind).find((each) => each !== undefined);
  if (kind === undefined) return 'where there is a channel to sell at it';
  return kind === 'direct' ? 'sold direct' : `sold by ${kind}`;
}

function wordsOf(cost: ProductCost): string | null {
  const kinds = belowCost(cost).map(({ kind }) => kind);
  return kinds.length === 0 ? null : kinds.join(', ');
}

/** The least pay for an hour first; what has none last; then by id. */
function byPay(one: ProductCost, other: ProductCost): number {
  const [a, b] = [soldOf(one)?.perHour, soldOf(other)?.perHour];
  if (a && b) return a.cmp(b);
  return Number(a === undefined) - Number(b === undefined);
}

function estimatedInWords(costs: readonly ProductCost[]): string[] {
  const estimated = costs.filter((cost) => cost.estimated).map(({ product }) => product.id);
  if (estimated.length === 0) return [];
  return [
    `Estimated from recipe, stock costs and the usual firings, since none came out good: ${estimated.join(', ')}.`,
  ];
}

/** Of what was there when the book began only the cost as counted is known, and not what its making took. */
function thereBeforeInWords(book: Book, { ware }: Flows): string[] {
  const days = new Set(openings(book, { to: ware.asOf }).map(({ day }) => day));
  const facts = [...days].flatMap((day) => [...factsDuring(ware.facts, { from: day, to: day })]);
  const opened = new Set(facts.filter(({ reason }) => reason === 'opened').map(({ lot }) => lot));
  const lots = [...opened].flatMap((id) => ware.lots.get(id) ?? []);
  const ids = lots.filter(({ wasThere }) => wasThere).map(({ lot }) => lot.product);
  if (ids.length === 0) return [];
  return [
    `Left out, since what its making took is not known: ware that was there when the book began (${[...new Set(ids)].sort().join(', ')}).`,
  ];
}

/** Which products are sold at the prices of their lots, and which have no price at all. */
function unpricedInWords(costs: readonly ProductCost[]): string[] {
  const unpriced = costs.filter(({ product }) => !product.price);
  const byLot = unpriced.filter(({ lotPrices }) => lotPrices.length > 0);
  const without = unpriced.filter(({ lotPrices }) => lotPrices.length === 0);
  const idsOf = (some: readonly ProductCost[]): string =>
    some.map((each) => each.product.id).join(', ');
  return [
    ...(byLot.length === 0
      ? []
      : [
          `Priced lot by lot, so the price is the mean of the lots that have one: ${idsOf(byLot)}.`,
        ]),
    ...(without.length === 0 ? [] : [`Without a price of its own: ${idsOf(without)}.`]),
  ];
}
