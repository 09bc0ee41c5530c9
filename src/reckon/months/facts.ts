/** What the events of a month came to, in columns that can be kept. */
import type { Book } from '../../book.ts';
import { decimal } from '../../number/decimal.ts';
import type { Measure } from '../../number/measure.ts';
import { NO_MONEY, type Money } from '../../number/money.ts';
import type { Unit } from '../../number/unit.ts';
import type { FiringCost } from '../firing-cost.ts';
import type { Movement, MovementReason } from '../stock.ts';
import type { SoldSale } from '../ware-flow.ts';
import type { Lots } from '../lots.ts';
import type { WareFact } from '../ware.ts';
import {
  costKept,
  keptCost,
  textKept,
  textsToKeep,
  type KeptCost,
  type TextsToKeep,
} from './columns.ts';

/** What happened in a month, in its order. */
export interface MonthFacts {
  readonly movements: readonly Movement[];
  readonly ware: readonly WareFact[];
  readonly sales: readonly SoldSale[];
  readonly firings: readonly FiringCost[];
  /** Of which product each thing sold was, and where the fact of it stands. */
  readonly sold: readonly { readonly product: string; readonly fact: number }[];
}

/** The same as data. */
export interface KeptFacts {
  readonly texts: readonly string[];
  readonly movements: KeptMovements;
  readonly ware: KeptWare;
  readonly sales: readonly KeptSale[];
  readonly firings: readonly KeptFiring[];
  readonly sold: { readonly product: Uint32Array; readonly fact: Uint32Array };
}

interface KeptMovements {
  readonly day: Uint32Array;
  readonly pool: Uint32Array;
  readonly reason: Uint32Array;
  readonly by: Uint32Array;
  readonly use: Uint32Array;
  readonly quantity: readonly Measure[];
  readonly value: readonly Money[];
}

interface KeptWare {
  readonly day: Uint32Array;
  readonly reason: Uint32Array;
  readonly by: Uint32Array;
  readonly lot: Uint32Array;
  readonly count: readonly number[];
  readonly cost: readonly KeptCost[];
  readonly at: readonly (number | string | undefined)[];
}

type KeptSale = readonly [id: string, lines: readonly KeptLine[]];
type KeptLine = readonly [from: readonly KeptTaking[], cost: KeptCost, estimated: boolean];
type KeptTaking = readonly [lot: string, grade: 'first' | 'second', count: number, cost: KeptCost];

type FiringAmounts = Omit<FiringCost, 'firing' | 'energy' | 'withoutBands' | 'shares'>;

interface KeptFiring {
  readonly id: string;
  readonly amounts: FiringAmounts;
  readonly energy: readonly [value: string, unit: Unit, estimated: boolean] | undefined;
  readonly withoutBands: string | undefined;
  readonly shares: readonly KeptCost[];
}

/** A month's facts to be kept. */
export function keptFacts(facts: MonthFacts): KeptFacts {
  const texts = textsToKeep();
  const { sold } = facts;
  return {
    movements: keptMovements(texts, facts.movements),
    ware: keptWare(texts, facts.ware),
    sales: facts.sales.map(keptSale),
    firings: facts.firings.map(keptFiring),
    sold: {
      product: texts.column(sold.map(({ product }) => product)),
      fact: Uint32Array.from(sold, ({ fact }) => fact),
    },
    texts: texts.all,
  };
}

function keptMovements({ column }: TextsToKeep, movements: readonly Movement[]): KeptMovements {
  return {
    day: column(movements.map(({ day }) => day)),
    pool: column(movements.map(({ pool }) => pool)),
    reason: column(movements.map(({ reason }) => reason)),
    by: column(movements.map(({ by }) => by)),
    use: column(movements.map((each) => each.for)),
    quantity: movements.map(({ quantity }) => quantity),
    value: movements.map(({ value }) => value),
  };
}

function keptWare({ column }: TextsToKeep, facts: readonly WareFact[]): KeptWare {
  return {
    day: column(facts.map(({ day }) => day)),
    reason: column(facts.map(({ reason }) => reason)),
    by: column(facts.map(({ by }) => by)),
    lot: column(facts.map(({ lot }) => lot)),
    count: facts.map(({ count }) => count),
    cost: facts.map(({ cost }) => keptCost(cost)),
    at: facts.some(({ at }) => at !== undefined) ? facts.map(({ at }) => at) : [],
  };
}

function keptSale({ id, lines }: SoldSale): KeptSale {
  return [
    id,
    lines.map(({ from, cost, estimated }) => [
      from.map(({ lot, grade, count, cost: each }) => [lot.lot.id, grade, count, keptCost(each)]),
      keptCost(cost),
      estimated,
    ]),
  ];
}

function keptFiring({ firing, energy, withoutBands, shares, ...amounts }: FiringCost): KeptFiring {
  return {
    id: firing.id,
    amounts,
    energy: energy && [energy.value.toFixed(), energy.unit, energy.estimated],
    withoutBands: withoutBands?.id,
    shares: shares.map(keptCost),
  };
}

/** The movements as they were. */
export function movementsKept({ texts, movements }: KeptFacts): Movement[] {
  const { day, pool, reason, by, use, quantity, value } = movements;
  const text = (column: Uint32Array, at: number): string => textKept(texts, column[at]) ?? '';
  return quantity.map((each, at) => ({
    day: text(day, at),
    pool: text(pool, at),
    reason: text(reason, at) as MovementReason,
    by: text(by, at),
    quantity: each,
    value: value[at] ?? NO_MONEY,
    for: textKept(texts, use[at]),
  }));
}

/** The facts of ware as they were. */
export function wareKept({ texts, ware }: KeptFacts): WareFact[] {
  const { day, reason, by, lot, count, cost, at: places } = ware;
  const text = (column: Uint32Array, at: number): string => textKept(texts, column[at]) ?? '';
  return count.map((each, at) => {
    const fact = {
      day: text(day, at),
      reason: text(reason, at) as WareFact['reason'],
      by: text(by, at),
      lot: text(lot, at),
      count: each,
      cost: costKept(cost[at]),
    };
    const place = places[at];
    return place === undefined ? fact : { ...fact, at: place };
  });
}

/** What sales took, as it was; each lot is asked for only when somebody looks at it. */
export function salesKept({ sales }: KeptFacts, lots: Pick<Lots, 'get'>): SoldSale[] {
  return sales.map(([id, lines]) => ({
    id,
    lines: lines.map(([from, cost, estimated]) => ({
      from: from.map(([lot, grade, count, each]) => ({
        get lot() {
          return sure(lots.get(lot), lot);
        },
        grade,
        count,
        cost: costKept(each),
      })),
      cost: costKept(cost),
      estimated,
    })),
  }));
}

/** What firings cost, as it was, by their ids. */
export function firingsKept({ firings }: KeptFacts, book: Book): Map<string, FiringCost> {
  return new Map(firings.map((kept) => [kept.id, firingKept(kept, book)]));
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

/** Something that must be there, or what is kept is not of this book. */
export function sure<T>(found: T | undefined, id: string): T {
  if (found === undefined)
    throw new RangeError(`what is remembered names ${id}, which is not there`);
  return found;
}
