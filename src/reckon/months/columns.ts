/** Columns of what is kept: texts stand once and are named by number, costs are lists of their components. */
import type { Money } from '../../number/money.ts';
import { COMPONENTS, NO_COST, type Cost } from '../cost.ts';

/** A cost as it is kept: its components in their order; none of no cost. */
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

/** Texts that are kept once, however often they are named; a column of them is their numbers. */
export interface TextsToKeep {
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
    column: (texts) => Uint32Array.from(texts, (text) => (text === undefined ? 0 : numberOf(text))),
  };
}

/** The text of a number; undefined for what was not there. */
export function textKept(texts: readonly string[], number: number | undefined): string | undefined {
  return number ? texts[number] : undefined;
}
