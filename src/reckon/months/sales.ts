/** What sales earned in a month, in columns that can be kept. */
import type { EarnedLine, SoldSale, Taking } from '../earned.ts';
import type { ItemKind } from '../income-fact.ts';
import {
  amountAt,
  columnsOf,
  costAt,
  costColumns,
  moneyColumn,
  textAt,
  textsToKeep,
  type CostColumns,
  type MoneyColumn,
} from './columns.ts';

const SALE_TEXTS = ['id', 'date', 'paid', 'channel', 'buyer', 'place'] as const;
const SALE_AMOUNTS = ['shipping', 'tax', 'taxed', 'taxedShipping'] as const;
const LINE_AMOUNTS = ['gross', 'discounts', 'net', 'fee', 'commission'] as const;

type Texts<K extends string> = Readonly<Record<K, Uint32Array>>;
type Amounts<K extends string> = Readonly<Record<K, MoneyColumn>>;

/** Sales as they are kept: each has so many lines of all, each line so many takings. */
export interface KeptSales
  extends Texts<(typeof SALE_TEXTS)[number]>, Amounts<(typeof SALE_AMOUNTS)[number]> {
  readonly texts: readonly string[];
  readonly lines: Uint32Array;
  readonly line: KeptLines;
  readonly taking: KeptTakings;
}

interface KeptTakings {
  readonly lot: Uint32Array;
  readonly grade: Uint32Array;
  readonly count: Float64Array;
}

interface KeptLines extends Amounts<(typeof LINE_AMOUNTS)[number]> {
  readonly kind: Uint32Array;
  readonly item: Uint32Array;
  readonly count: Float64Array;
  readonly returned: Uint8Array;
  readonly estimated: Uint8Array;
  readonly cost: CostColumns;
  readonly takings: Uint32Array;
}

/** Sales to be kept. */
export function keptSales(sales: readonly SoldSale[]): KeptSales {
  const { all: texts, column } = textsToKeep();
  const lines = sales.flatMap((sale) => sale.lines);
  const takings = lines.flatMap(({ from }) => from);
  return {
    ...columnsOf(SALE_TEXTS, (key) => column(sales.map((sale) => sale[key]))),
    ...columnsOf(SALE_AMOUNTS, (key) => moneyColumn(sales.map((sale) => sale[key]))),
    lines: Uint32Array.from(sales, (sale) => sale.lines.length),
    line: {
      kind: column(lines.map(({ kind }) => kind)),
      item: column(lines.map(({ item }) => item)),
      count: Float64Array.from(lines, ({ count }) => count),
      returned: Uint8Array.from(lines, ({ returned }) => Number(returned)),
      estimated: Uint8Array.from(lines, ({ estimated }) => Number(estimated)),
      cost: costColumns(lines.map(({ cost }) => cost)),
      takings: Uint32Array.from(lines, ({ from }) => from.length),
      ...columnsOf(LINE_AMOUNTS, (key) => moneyColumn(lines.map((line) => line[key]))),
    },
    taking: {
      lot: column(takings.map(({ lot }) => lot)),
      grade: column(takings.map(({ grade }) => grade)),
      count: Float64Array.from(takings, ({ count }) => count),
    },
    texts,
  };
}

/** The sales as they were. */
export function salesKept(kept: KeptSales): SoldSale[] {
  const takings = Array.from(kept.taking.count, (_, at) => takingAt(kept, at));
  const from = parts(takings, kept.line.takings);
  const lines = Array.from(from, (taken, at) => lineAt(kept, at, taken));
  return parts(lines, kept.lines).map((own, at) => saleAt(kept, at, own));
}

/** The list cut into pieces that are so long. */
function parts<T>(all: readonly T[], lengths: Uint32Array): T[][] {
  let start = 0;
  return Array.from(lengths, (length) => all.slice(start, (start += length)));
}

function saleAt(kept: KeptSales, at: number, lines: readonly EarnedLine[]): SoldSale {
  const { texts, id, date, paid, channel, buyer, place } = kept;
  return {
    id: textAt(texts, id, at),
    date: textAt(texts, date, at),
    paid: textAt(texts, paid, at) || undefined,
    channel: textAt(texts, channel, at),
    buyer: textAt(texts, buyer, at) || undefined,
    place: textAt(texts, place, at),
    shipping: amountAt(kept.shipping, at),
    tax: amountAt(kept.tax, at),
    taxed: amountAt(kept.taxed, at),
    taxedShipping: amountAt(kept.taxedShipping, at),
    lines,
  };
}

function lineAt({ texts, line }: KeptSales, at: number, from: readonly Taking[]): EarnedLine {
  return {
    kind: textAt(texts, line.kind, at) as ItemKind,
    item: textAt(texts, line.item, at),
    count: line.count[at] ?? 0,
    returned: line.returned[at] === 1,
    estimated: line.estimated[at] === 1,
    gross: amountAt(line.gross, at),
    discounts: amountAt(line.discounts, at),
    net: amountAt(line.net, at),
    fee: amountAt(line.fee, at),
    commission: amountAt(line.commission, at),
    from,
    get cost() {
      return costAt(line.cost, at);
    },
  };
}

function takingAt({ texts, taking }: KeptSales, at: number): Taking {
  return {
    lot: textAt(texts, taking.lot, at),
    grade: textAt(texts, taking.grade, at) as Taking['grade'],
    count: taking.count[at] ?? 0,
  };
}
