/** Costs: what one good piece of each product costs, the least price that covers it, and what today's leaves. */
import { earlierDay } from '../number/date.js';
import { once } from '../once.ts';
import { factsDuring } from '../among.ts';
import type { Book } from '../book.ts';
import type { OverheadBasis } from '../groups.ts';
import { ZERO } from '../number/decimal.ts';
import { booked, digitsOf } from '../reckon/booked.ts';
import { goodOf } from '../reckon/costs/lot-steps.ts';
import { openings } from '../reckon/stock/opening.ts';
import type { Span } from '../number/date.ts';
import { PIECE_PARTS } from '../reckon/costs/piece-cost.ts';
import {
  CHANNEL_KINDS,
  type KindPrice,
  type MeanPrice,
  meanPrice,
  retailOf,
} from '../reckon/costs/kind-price.ts';
import { belowCost, productCosts, type ProductCost } from '../reckon/costs/product-cost.ts';
import {
  channelsInWords,
  costlessInWords,
  overheadInWords,
  workInWords,
  changesInWords,
} from './cost-words.ts';
import { broughtByParts } from './brought.ts';
import { spanInWords, tableHead } from './head.ts';
import type { Column, Row, Table } from './table.ts';
import { costsAlerts, costsVerdict } from './verdicts/costs.ts';
import type { Flows } from '../reckon/flows.ts';
import { camelCase } from '../camel-case.ts';
import { sentences } from '../in-words.ts';

/** Which floors go first where there is no room: those that are mostly near another one. */
const FLOOR_DROPS = { direct: 2, fair: 5, online: 6, wholesale: 3, consignment: 1 } as const;

function costColumns(book: Book): Column[] {
  const kinds = new Set([...book.channels.values()].map(({ kind }) => kind));
  const floors = CHANNEL_KINDS.map((kind): Column => ({
    key: byChannel('floor', kind),
    title: `Floor ${kind}`,
    type: 'money',
    drop: FLOOR_DROPS[kind],
    dataOnly: !kinds.has(kind),
  }));
  const ofData = (key: string, title: string, type: 'money' | 'rate' = 'rate'): Column => {
    return { key, title, type, dataOnly: true };
  };
  return [
    { key: 'product', title: 'Product', type: 'id' },
    { key: 'name', title: 'Name', type: 'text', drop: 8, isName: true },
    { key: 'made', title: 'Made', type: 'count', drop: 9 },
    { key: 'good', title: 'Good', type: 'count', drop: 9 },
    ...PIECE_PARTS.map((part) => ofData(part, part)),
    ofData('lossUplift', 'Losses'),
    { key: 'total', title: 'Cost', type: 'rate' },
    ...floors,
    { key: 'price', title: 'Price', type: 'rate' },
    { key: 'margin', title: 'Margin', type: 'rate' },
    { key: 'perHour', title: 'Per hour', type: 'rate' },
    ofData('secondPrice', 'Price of a second', 'money'),
    ofData('marginSecond', 'Margin of a second'),
    ofData('perHourSecond', 'Per hour of a second'),
    ofData('wholesalePrice', 'Wholesale price', 'money'),
    ...CHANNEL_KINDS.map((kind) => ofData(byChannel('margin', kind), `Margin ${kind}`)),
    { key: 'belowCost', title: 'Is below cost', type: 'flag', dataOnly: true },
    { key: 'belowAt', title: 'Below cost', type: 'text' },
    { key: 'estimated', title: 'Estimated', type: 'flag', drop: 7 },
  ];
}

/** `floorDirect`, `marginOnline`: the key of a column that is of one kind of channel. */
function byChannel(what: 'floor' | 'margin', kind: KindPrice['kind']): string {
  return camelCase(`${what}-${kind}`);
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
  const columns = costColumns(book);
  const rows = costs.map((cost) => costRow(book, cost));
  return {
    report: 'costs',
    title: `What one good piece costs, ${spanInWords(asked.span)}`,
    ...tableHead(book, asOf),
    columns,
    rows,
    verdict: costsVerdict(costs, { columns, rows, minorDigits: digitsOf(book) }),
    alerts: costsAlerts(costs),
    notes: sentences(
      secondsInWords(costs),
      `Margin and Per hour are at today's price, ${soldWhere(costs)}.`,
      channelsInWords(costs),
      workInWords(book, asOf),
      changesInWords(
        book,
        costs.map(({ product }) => product.id),
        { from: asked.span.from, to: earlierDay(asked.span.to, asOf) },
      ),
      ...overheadInWords(book, overhead),
      ...groundsInWords(book, flows, costs),
    ),
    behind: once(() => costs.map(({ lots }) => behindLots(lots))),
    brought: broughtByParts(costs, {
      made: ({ lots }) => lots.map(({ lot }) => [lot.id, lot.made] as const),
      good: ({ lots }) => lots.map((state) => [state.lot.id, goodOf(state)] as const),
    }),
  };
}

/** Ids of lots, then of the firings that they went through, each once. */
export function behindLots(lots: ProductCost['lots']): string[] {
  const firings = lots.flatMap(({ passes }) => passes.map(({ firing }) => firing.id));
  return [...lots.map(({ lot }) => lot.id), ...new Set(firings)];
}

/** The products whose seconds today's prices sell below cost; of firsts the rows say it. */
function secondsInWords(costs: readonly ProductCost[]): string | undefined {
  const ids = productIds(costs.filter(({ second }) => second?.margin?.lt(ZERO)));
  return ids === '' ? undefined : `Seconds sold below cost: ${ids}.`;
}

function productIds(costs: readonly ProductCost[]): string {
  return costs.map(({ product }) => product.id).join(', ');
}

function costRow(book: Book, cost: ProductCost): Row {
  const { product, prices, second } = cost;
  const sold = soldOf(cost);
  const below = belowCost(cost).map(({ kind }) => kind);
  const each = (what: 'floor' | 'margin'): Row =>
    Object.fromEntries(
      CHANNEL_KINDS.map((kind) => [
        byChannel(what, kind),
        prices.find((price) => price.kind === kind)?.[what],
      ]),
    );
  return {
    product: product.id,
    name: product.name,
    made: cost.made,
    good: cost.good,
    ...cost.cost.parts,
    lossUplift: cost.cost.uplift,
    total: cost.cost.total,
    ...each('floor'),
    price: sold?.price ?? product.price,
    margin: sold?.margin,
    perHour: sold?.perHour,
    secondPrice: product.second && booked(book, product.second),
    marginSecond: second?.margin,
    perHourSecond: second?.perHour,
    wholesalePrice: product.wholesale && booked(book, product.wholesale),
    ...each('margin'),
    belowCost: below.length > 0,
    belowAt: below.length === 0 ? null : below.join(', '),
    estimated: cost.estimated,
  };
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

/** The least pay for an hour first; what has none last; then by id. */
function byPay(one: ProductCost, other: ProductCost): number {
  const [a, b] = [soldOf(one)?.perHour, soldOf(other)?.perHour];
  if (a && b) return a.cmp(b);
  return Number(a === undefined) - Number(b === undefined);
}

/** What the figures rest on where it is not what came out, and which products have no price of their own. */
function groundsInWords(
  book: Book,
  flows: Flows,
  costs: readonly ProductCost[],
): (string | undefined | false)[] {
  const estimated = productIds(costs.filter((cost) => cost.estimated));
  const there = thereBefore(book, flows);
  const unpriced = costs.filter(({ product }) => !product.price);
  const byLot = productIds(unpriced.filter(({ lotPrices }) => lotPrices.length > 0));
  const without = productIds(unpriced.filter(({ lotPrices }) => lotPrices.length === 0));
  return [
    estimated !== '' &&
      `Estimated from recipe, stock costs and the usual firings, since none came out good: ${estimated}.`,
    there.length > 0 &&
      `Left out, since what its making took is not known: ware that was there when the book began (${there.join(', ')}).`,
    costlessInWords(book, flows, costs),
    byLot !== '' &&
      `Priced lot by lot, so the price is the mean of the lots that have one: ${byLot}.`,
    without !== '' && `Without a price of its own: ${without}.`,
  ];
}

/** Products of ware that was there when the book began: only the cost as counted is known of it. */
function thereBefore(book: Book, { ware }: Flows): string[] {
  const days = new Set(openings(book, { to: ware.asOf }).map(({ day }) => day));
  const facts = [...days].flatMap((day) => [...factsDuring(ware.facts, { from: day, to: day })]);
  const opened = new Set(facts.filter(({ reason }) => reason === 'opened').map(({ lot }) => lot));
  const lots = [...opened].flatMap((id) => ware.lots.get(id) ?? []);
  const ids = lots.filter(({ wasThere }) => wasThere).map(({ lot }) => lot.product);
  return [...new Set(ids)].sort();
}
