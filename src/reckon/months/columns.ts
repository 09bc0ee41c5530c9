/** Columns of what is kept: texts stand once and are named by number, amounts are 64-bit integers where they fit. */
import { type Money, NO_MONEY } from '../../number/money.ts';
import { COMPONENTS, type Cost, NO_COST, type Pieces } from '../costs/cost.ts';

/** A cost as it is kept by itself: its components in their order; none of no cost. */
export type KeptCost = readonly (Money | undefined)[] | undefined;

/** A cost to be kept. */
export function keptCost(cost: Cost): KeptCost {
  return cost === NO_COST ? undefined : COMPONENTS.map((component) => cost[component]);
}

/** A cost as it was. */
export function costKept(kept: KeptCost): Cost {
  if (kept === undefined) return NO_COST;
  const [clay, glaze, energy, fuel, wear, supplies, packing, labour] = kept;
  return { clay, glaze, energy, fuel, wear, supplies, packing, labour };
}

/** A count of pieces with their cost, as it is kept. */
export type KeptPieces = readonly [count: number, cost: KeptCost];

/** Pieces to be kept. */
export function keptPieces({ count, cost }: Pieces): KeptPieces {
  return [count, keptCost(cost)];
}

/** Pieces as they were. */
export function piecesKept([count, cost]: KeptPieces): Pieces {
  return { count, cost: costKept(cost) };
}

/** Amounts one below the other; in 64 bits `NONE` stands for one that is not there. */
export type AmountColumn = BigInt64Array | readonly (bigint | undefined)[];

/** Amounts of any component; one that none of the costs has is left out. */
export type CostColumns = readonly (AmountColumn | undefined)[];

const NOT_THERE = -(2n ** 63n);

/** Amounts to be kept. */
export function amountColumn(amounts: readonly (Money | undefined)[]): AmountColumn {
  const column = new BigInt64Array(amounts.length);
  for (const [at, amount] of amounts.entries()) {
    column[at] = amount ?? NOT_THERE;
    // What is longer than 64 bits was cut off; what would be taken for none has to be told from it.
    if (amount !== undefined && (column[at] !== amount || amount === NOT_THERE))
      return [...amounts];
  }
  return column;
}

/** An amount as it was; undefined where it was not there. */
function moneyAt(column: AmountColumn | undefined, at: number): Money | undefined {
  const amount = column?.[at];
  const isNone = amount === NOT_THERE && column instanceof BigInt64Array;
  return isNone ? undefined : (amount as Money | undefined);
}

/** An amount that is always there. */
export function amountAt(column: AmountColumn, at: number): Money {
  return moneyAt(column, at) ?? NO_MONEY;
}

/** Costs to be kept. */
export function costColumns(costs: readonly Cost[]): CostColumns {
  return COMPONENTS.map((component) =>
    costs.some((cost) => cost[component] !== undefined)
      ? amountColumn(costs.map((cost) => cost[component]))
      : undefined,
  );
}

/** A cost as it was. */
export function costOfRow(columns: CostColumns, at: number): Cost {
  const kept = columns.map((column) => moneyAt(column, at));
  return kept.every((amount) => amount === undefined) ? NO_COST : costKept(kept);
}

/** Texts that are kept once, however often they are named; a column of them is their numbers. */
interface TextsToKeep {
  readonly all: string[];
  readonly column: (texts: readonly (string | undefined)[]) => Uint32Array;
}

/** Takes texts to be kept; number 0 is of what is not there. */
export function textsToKeep(): TextsToKeep {
  const numbers = new Map<string, number>();
  const all: string[] = [''];
  const numberOf = (text: string): number => {
    const known = numbers.get(text) ?? all.push(text) - 1;
    numbers.set(text, known);
    return known;
  };
  return {
    all,
    column: (texts) => {
      const numbered = new Uint32Array(texts.length);
      for (const [at, text] of texts.entries())
        if (text !== undefined) numbered[at] = numberOf(text);
      return numbered;
    },
  };
}

/** A text of a column; empty for what was not there. Throws a `RangeError` where no text has its number. */
export function textAt(texts: readonly string[], column: Uint32Array, at: number): string {
  return sure(texts[column[at] ?? 0], 'a text');
}

/** Something that must be there, or what is kept is not of this book. */
export function sure<T>(found: T | undefined, id: string): T {
  if (found === undefined)
    throw new RangeError(`what is remembered names ${id}, which is not there`);
  return found;
}
