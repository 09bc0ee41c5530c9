/** What events did to the cost of ware in a month, and what was sold, in columns that can be kept. */
import type { WareFact } from '../ware.ts';
import {
  columnsOf,
  costAt,
  costColumns,
  textAt,
  textsToKeep,
  type CostColumns,
} from './columns.ts';

/** Of which product a thing sold was, and where the fact of it stands. */
export interface SoldAt {
  readonly product: string;
  readonly fact: number;
}

const TEXTS = ['day', 'reason', 'by', 'lot'] as const;

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
    ...columnsOf(TEXTS, (key) => column(facts.map((fact) => fact[key]))),
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
    cost: costAt(cost, at),
  };
  const place = kept.at[at];
  return place === undefined ? fact : { ...fact, at: place };
}
