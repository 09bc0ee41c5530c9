/** The scale of a chart: round marks that span the values, and where a value lies between them. */

/** Marks from the lowest to the highest, evenly apart; zero is always among them. */
export interface Scale {
  readonly marks: readonly number[];
  /** Where a value lies, from 0 at the lowest mark to 1 at the highest. */
  readonly at: (value: number) => number;
}

const STEPS = [1, 2, 2.5, 5, 10] as const;
const MOST_STEPS = 5;

/** A scale over the values and zero, with at most six marks; from 0 to 1 where all are zero. */
export function scaleOf(values: readonly number[]): Scale {
  const low = Math.min(0, ...values);
  const high = Math.max(0, ...values);
  const step = low === high ? 1 : stepFor(low, high);
  const first = Math.floor(low / step);
  const last = Math.max(first + 1, Math.ceil(high / step));
  const marks = Array.from({ length: last - first + 1 }, (_, at) => (first + at) * step);
  const span = (last - first) * step;
  return { marks, at: (value) => (value - first * step) / span };
}

/** The smallest round step that gets from low to high in five steps. */
function stepFor(low: number, high: number): number {
  const magnitude = 10 ** Math.floor(Math.log10((high - low) / MOST_STEPS));
  const fitting = STEPS.map((step) => step * magnitude).find(
    (step) => Math.ceil(high / step) - Math.floor(low / step) <= MOST_STEPS,
  );
  return fitting ?? 20 * magnitude;
}
