/** What moved in stock in a month, in columns that can be kept. */
import { keyed } from '../../grouping.ts';
import type { Measure } from '../../number/measure.ts';
import type { Movement, MovementReason } from '../stock/stock.ts';
import {
  type AmountColumn,
  type CostColumns,
  type KeptCost,
  amountAt,
  amountColumn,
  costColumns,
  costKept,
  costOfRow,
  keptCost,
  sure,
  textAt,
  textsToKeep,
} from './columns.ts';
import type { Book } from '../../book.ts';
import { decimal } from '../../number/decimal.ts';
import type { Unit } from '../../number/unit.ts';
import type { FiringCost } from '../kilns/firing-cost.ts';
import type { WareFact } from '../ware/ware.ts';
import type { EarnedLine, SoldSale, Taking } from '../sales/earned.ts';
import type { ItemKind } from '../sales/income-fact.ts';

const MOVEMENT_TEXTS = ['day', 'pool', 'reason', 'by'] as const;

/** Movements as they are kept. */
export interface KeptMovements {
  readonly texts: readonly string[];
  readonly day: Uint32Array;
  readonly pool: Uint32Array;
  readonly reason: Uint32Array;
  readonly by: Uint32Array;
  readonly use: Uint32Array;
  readonly quantity: readonly Measure[];
  readonly value: AmountColumn;
}

/** Movements to be kept. */
export function keptMovements(movements: readonly Movement[]): KeptMovements {
  const { all: texts, column } = textsToKeep();
  return {
    ...keyed(MOVEMENT_TEXTS, (key) => column(movements.map((each) => each[key]))),
    use: column(movements.map((each) => each.for)),
    quantity: movements.map(({ quantity }) => quantity),
    value: amountColumn(movements.map(({ value }) => value)),
    texts,
  };
}

/** The movements as they were. */
export function movementsKept(kept: KeptMovements): Movement[] {
  const { texts, day, pool, reason, by, use, quantity, value } = kept;
  return quantity.map((each, at) => ({
    day: textAt(texts, day, at),
    pool: textAt(texts, pool, at),
    reason: textAt(texts, reason, at) as MovementReason,
    by: textAt(texts, by, at),
    quantity: each,
    value: amountAt(value, at),
    for: textAt(texts, use, at) || undefined,
  }));
}

type FiringAmounts = Omit<FiringCost, 'firing' | 'energy' | 'withoutBands' | 'shares'>;

/** A firing's cost as it is kept. */
export interface KeptFiring {
  readonly id: string;
  readonly amounts: FiringAmounts;
  readonly energy: readonly [value: string, unit: Unit, estimated: boolean] | undefined;
  readonly withoutBands: string | undefined;
  readonly shares: readonly KeptCost[];
}

/** A firing's cost to be kept. */
export function keptFiring(cost: FiringCost): KeptFiring {
  const { firing, energy, withoutBands, shares, ...amounts } = cost;
  return {
    id: firing.id,
    amounts,
    energy: energy && [energy.value.toFixed(), energy.unit, energy.estimated],
    withoutBands: withoutBands?.id,
    shares: shares.map(keptCost),
  };
}

/** What firings cost, as it was, by their ids. */
export function firingsKept(kept: readonly KeptFiring[], book: Book): Map<string, FiringCost> {
  return new Map(kept.map((each) => [each.id, firingKept(each, book)]));
}

function firingKept(
  { id, amounts, energy, withoutBands, shares }: KeptFiring,
  book: Book,
): FiringCost {
  return {
    ...amounts,
    get firing() {
      return sure(book.firings.get(id), id);
    },
    energy: energy && { value: decimal(energy[0]), unit: energy[1], estimated: energy[2] },
    withoutBands: withoutBands === undefined ? undefined : book.tariffs.get(withoutBands),
    shares: shares.map(costKept),
  };
}

/** Of which product a thing sold was, and where the fact of it stands. */
export interface SoldAt {
  readonly product: string;
  readonly fact: number;
}

const FACT_TEXTS = ['day', 'reason', 'by', 'lot'] as const;

/** Facts of ware as they are kept. */
export interface KeptWare {
  readonly texts: readonly string[];
  readonly day: Uint32Array;
  readonly reason: Uint32Array;
  readonly by: Uint32Array;
  readonly lot: Uint32Array;
  readonly count: readonly number[];
  readonly cost: CostColumns;
  readonly at: readonly (number | string | undefined)[];
  readonly sold: { readonly product: Uint32Array; readonly fact: Uint32Array };
}

/** Facts of ware to be kept. */
export function keptWare(facts: readonly WareFact[], sold: readonly SoldAt[]): KeptWare {
  const { all: texts, column } = textsToKeep();
  return {
    ...keyed(FACT_TEXTS, (key) => column(facts.map((fact) => fact[key]))),
    count: facts.map(({ count }) => count),
    cost: costColumns(facts.map(({ cost }) => cost)),
    at: facts.some(({ at }) => at !== undefined) ? facts.map(({ at }) => at) : [],
    sold: {
      product: column(sold.map(({ product }) => product)),
      fact: Uint32Array.from(sold, ({ fact }) => fact),
    },
    texts,
  };
}

/** The facts of ware as they were. */
export function wareKept(kept: KeptWare): WareFact[] {
  return kept.count.map((_, at) => factAt(kept, at));
}

/** What was sold in the month, by product, each in the order in which it was sold. */
export function soldKept(kept: KeptWare): readonly { product: string; fact: WareFact }[] {
  const { texts, sold } = kept;
  return Array.from(sold.fact, (fact, at) => ({
    product: textAt(texts, sold.product, at),
    fact: factAt(kept, fact),
  }));
}

function factAt(kept: KeptWare, at: number): WareFact {
  const { texts, day, reason, by, lot, count, cost } = kept;
  const fact = {
    day: textAt(texts, day, at),
    reason: textAt(texts, reason, at) as WareFact['reason'],
    by: textAt(texts, by, at),
    lot: textAt(texts, lot, at),
    count: count[at] ?? 0,
    cost: costOfRow(cost, at),
  };
  const place = kept.at[at];
  return place === undefined ? fact : { ...fact, at: place };
}

const SALE_TEXTS = ['id', 'date', 'paid', 'channel', 'buyer', 'place'] as const;
const SALE_AMOUNTS = ['shipping', 'tax', 'taxed', 'taxedShipping'] as const;
const LINE_AMOUNTS = ['gross', 'discounts', 'net', 'fee', 'commission'] as const;

type Texts<K extends string> = Readonly<Record<K, Uint32Array>>;
type AmountColumns<K extends string> = Readonly<Record<K, AmountColumn>>;

/** Sales as they are kept: each has so many lines of all, each line so many takings. */
export interface KeptSales
  extends Texts<(typeof SALE_TEXTS)[number]>, AmountColumns<(typeof SALE_AMOUNTS)[number]> {
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

interface KeptLines extends AmountColumns<(typeof LINE_AMOUNTS)[number]> {
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
    ...keyed(SALE_TEXTS, (key) => column(sales.map((sale) => sale[key]))),
    ...keyed(SALE_AMOUNTS, (key) => amountColumn(sales.map((sale) => sale[key]))),
    lines: Uint32Array.from(sales, (sale) => sale.lines.length),
    line: {
      kind: column(lines.map(({ kind }) => kind)),
      item: column(lines.map(({ item }) => item)),
      count: Float64Array.from(lines, ({ count }) => count),
      returned: Uint8Array.from(lines, ({ returned }) => Number(returned)),
      estimated: Uint8Array.from(lines, ({ estimated }) => Number(estimated)),
      cost: costColumns(lines.map(({ cost }) => cost)),
      takings: Uint32Array.from(lines, ({ from }) => from.length),
      ...keyed(LINE_AMOUNTS, (key) => amountColumn(lines.map((line) => line[key]))),
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
  const lines = Array.from(from, (taken, at) => earnedLineAt(kept, at, taken));
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

function earnedLineAt({ texts, line }: KeptSales, at: number, from: readonly Taking[]): EarnedLine {
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
      return costOfRow(line.cost, at);
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
