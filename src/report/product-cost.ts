/** One product's cost taken apart: its parts, its prices by channel, and what a tenth more of something does. */
import { earlierDay } from '../number/date.js';
import { counted, sentences } from '../in-words.ts';
import type { Book } from '../book.ts';
import type { OverheadBasis } from '../groups.ts';
import { ZERO, divide, type Decimal } from '../number/decimal.ts';
import type { Money } from '../number/money.ts';
import { piecesUnderWay } from '../reckon/ware/lot.ts';
import type { Flows } from '../reckon/flows.ts';
import type { Span } from '../number/date.ts';
import type { Overhead } from '../reckon/costs/overhead.ts';
import { PIECE_PARTS, type PiecePart } from '../reckon/costs/piece-cost.ts';
import type { KindPrice, LotPrice } from '../reckon/costs/kind-price.ts';
import {
  belowCost,
  productCosts,
  type ProductCost,
  type Tenth,
} from '../reckon/costs/product-cost.ts';
import {
  amountInWords,
  changesInWords,
  channelsInWords,
  costlessInWords,
  overheadInWords,
  workInWords,
} from './cost-words.ts';
import { behindLots } from './costs.ts';
import { backed, spanInWords, tableHead, type BackedRow } from './head.ts';
import { productVerdict } from './record-verdicts.ts';
import type { Column, Row, Table } from './table.ts';

const PART_COLUMNS: readonly Column[] = [
  { key: 'part', title: 'Part', type: 'text' },
  { key: 'item', title: 'Item', type: 'text' },
  { key: 'channel', title: 'Channel', type: 'id', dataOnly: true },
  { key: 'lot', title: 'Lot', type: 'id', dataOnly: true },
  { key: 'cost', title: 'Cost', type: 'rate' },
  { key: 'share', title: 'Share', type: 'fraction', bar: true },
  { key: 'lotCost', title: 'Cost of the lot', type: 'rate', dataOnly: true },
  { key: 'floor', title: 'Floor', type: 'money' },
  { key: 'price', title: 'Price', type: 'money' },
  { key: 'margin', title: 'Margin', type: 'rate' },
  { key: 'perHour', title: 'Per hour', type: 'rate' },
  { key: 'after', title: 'Cost then', type: 'rate', dataOnly: true },
  { key: 'change', title: 'Change', type: 'rate' },
];

/** What the rows of one product are parted into. */
export const COST_PARTS = {
  cost: 'What one good piece costs',
  prices: 'What it is sold for',
  lots: 'Lots at a price of their own',
  tenths: 'If something goes up by a tenth',
} as const;

/** The cost of one product; undefined when there is none of that id. */
export function productCostTable(
  book: Book,
  flows: Flows,
  asked: { product: string; span: Span; by: OverheadBasis },
): Table | undefined {
  const { overhead, products } = productCosts(book, flows, asked);
  const cost = products.find(({ product }) => product.id === asked.product);
  if (!cost) return undefined;
  const { total } = cost.cost;
  const { asOf } = flows.stock;
  const rows = [
    ...partRows(cost, overhead),
    ...cost.prices.map((price) => priceRow(price, price.kind)),
    ...(cost.second ? [priceRow(cost.second, `second, ${cost.second.kind}`)] : []),
    ...cost.lotPrices.map(lotRow),
    ...cost.tenths.map((tenth) => tenthRow(tenth, total)),
  ];
  return {
    report: 'costs',
    title: `${cost.product.name}: one good piece costs ${amountInWords(book, total)}`,
    ...tableHead(book, asOf),
    columns: PART_COLUMNS,
    totals: { item: 'one good piece', cost: total },
    verdict: productVerdict(book, cost, lossesInWords(book, cost)),
    notes: sentences(
      groundOf(cost, asked.span),
      'Losses: cost of lost pieces, spread over the good ones; packing is at stock cost.',
      channelsInWords([cost]),
      workInWords(book, asOf),
      changesInWords(book, [cost.product.id], {
        from: asked.span.from,
        to: earlierDay(asked.span.to, asOf),
      }),
      ...overheadInWords(book, overhead),
      costlessInWords(book, flows, [cost]),
    ),
    partedBy: 'part',
    ...backed(rows),
  };
}

function partRows({ cost, lots }: ProductCost, overhead: Overhead): BackedRow[] {
  const share = (amount: Decimal): Decimal | null =>
    cost.total.isZero() ? null : divide(amount, cost.total);
  const row = (item: string, amount: Decimal): Row => ({
    part: COST_PARTS.cost,
    item,
    cost: amount,
    share: share(amount),
  });
  return [
    ...PIECE_PARTS.map((part) => ({
      row: row(part, cost.parts[part]),
      behind: behindPart(part, { lots, overhead }),
    })),
    { row: row('losses', cost.uplift), behind: behindLosses(lots) },
  ];
}

function behindPart(
  part: PiecePart,
  { lots, overhead }: { lots: ProductCost['lots']; overhead: Overhead },
): readonly string[] {
  if (part === 'packing') return [];
  if (part === 'overhead') return overhead.records;
  if (part === 'clay') return lots.map(({ lot }) => lot.id);
  const fired = behindLots(lots);
  return part === 'labour' ? fired : fired.slice(lots.length);
}

/** The lots that lost pieces outside the kiln, and the firings that lost some of them. */
function behindLosses(lots: ProductCost['lots']): string[] {
  const losing = lots.filter(({ lostOutside }) => lostOutside.length > 0);
  const passes = lots.flatMap((lot) => lot.passes).filter(({ line }) => (line.lost ?? 0) > 0);
  return [...losing.map(({ lot }) => lot.id), ...new Set(passes.map(({ firing }) => firing.id))];
}

function priceRow(at: KindPrice, item: string): BackedRow {
  const { channel, floor, price, margin, perHour } = at;
  const row = { part: COST_PARTS.prices, item, channel: channel.id, floor, price, margin, perHour };
  return { row, behind: [channel.id] };
}

/** A lot by its title, with what just its pieces cost; the floor and the margin are of that. */
function lotRow({ lot, cost, sold }: LotPrice): BackedRow {
  const { row, behind } = priceRow(sold, lot.title ?? lot.id);
  const own = { part: COST_PARTS.lots, lot: lot.id, lotCost: cost.total };
  return { row: { ...row, ...own }, behind: [lot.id, ...behind] };
}

const TENTHS: Readonly<Record<Tenth['of'], string>> = {
  losses: 'losses',
  energy: 'price of energy',
  clay: 'price of clay',
};

function tenthRow({ of, total: after }: Tenth, now: Decimal): BackedRow {
  const row = { part: COST_PARTS.tenths, item: TENTHS[of], after, change: after?.minus(now) };
  return { row, behind: [] };
}

/** Where today's price does not cover the cost, and what each piece loses there. */
function lossesInWords(book: Book, cost: ProductCost): string | undefined {
  const money = (amount: Decimal | Money | undefined): string =>
    amount === undefined ? '' : amountInWords(book, amount);
  const loss = ({ price, margin }: KindPrice, where: string): string =>
    `${where} at ${money(price)} loses ${money(margin?.neg())}`;
  const { second } = cost;
  const words = [
    ...belowCost(cost).map((price) => loss(price, price.kind)),
    ...(second?.margin?.lt(ZERO) ? [loss(second, 'a second')] : []),
  ];
  return words.length === 0 ? undefined : `Sold below cost: ${words.join(', ')} per piece.`;
}

function groundOf({ estimated, lots, made, good }: ProductCost, span: Span): string {
  const days = spanInWords(span);
  const still = lots.reduce((all, lot) => all + piecesUnderWay(lot), 0);
  const more = still === 0 ? '' : `, ${still} still on their way`;
  const out = `${counted(lots.length, 'lot')} that came out ${days}: ${made} made, ${good} good${more}`;
  if (!estimated) return `From ${out}.`;
  const ground = 'Estimated from its recipe, stock costs and the usual firings';
  return lots.length === 0 ? `${ground}: none came out ${days}.` : `${ground}; ${out}.`;
}
