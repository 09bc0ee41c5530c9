/** Scales of drawings: where a figure lies between the lowest and the highest, and round marks between. */

export interface Scale {
  /** Round figures from one end to the other, evenly apart. */
  readonly marks: readonly number[];
  /** Where a figure lies, from 0 at the lowest end to 1 at the highest. */
  readonly at: (value: number) => number;
  /** What lies at its highest end. */
  readonly high: number;
}

const STEPS = [1, 2, 2.5, 5, 10] as const;
const MOST_STEPS = 5;
/** Digits of a mark that are not noise of its reckoning. */
const DIGITS = 12;
/** A mark this much of a step beyond an end lies on it. */
const NOISE = 1e-9;

/** A scale over the figures and zero; from 0 to 1 where all are zero. */
export function scaleOf(values: readonly number[]): Scale {
  return scaleOver([0, ...values]);
}

/** A scale over the figures alone, of which there is one at the least. */
export function scaleOver(values: readonly number[]): Scale {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const isWhole = values.every(Number.isInteger);
  return scaleBetween(low, low === high ? low + (Math.abs(low) || 1) : high, isWhole);
}

/** A scale of whole days from 0 to the last one, that one too. */
export function dayScale(days: number): Scale {
  const marks = Array.from({ length: days }, (_, day) => day);
  return { marks, high: days, at: (value) => Math.min(Math.max(value, 0), days) / days };
}

/** It ends where the figures do, so that a small loss takes no more room than it is large. */
function scaleBetween(low: number, high: number, isWhole: boolean): Scale {
  const step = stepFor(low, high, isWhole);
  const first = Math.ceil(low / step - NOISE);
  const last = Math.floor(high / step + NOISE);
  const marks = Array.from({ length: last - first + 1 }, (_, at) =>
    Number(((first + at) * step).toPrecision(DIGITS)),
  );
  return { marks, high, at: (value) => (value - low) / (high - low) };
}

/** The smallest round step that gets from low to high in five steps; whole where the figures are. */
function stepFor(low: number, high: number, isWhole: boolean): number {
  const magnitude = 10 ** Math.floor(Math.log10((high - low) / MOST_STEPS));
  const fitting = STEPS.map((step) => step * magnitude).find(
    (step) =>
      (!isWhole || Number.isInteger(step)) &&
      Math.ceil(high / step) - Math.floor(low / step) <= MOST_STEPS,
  );
  return fitting ?? Math.max(20 * magnitude, isWhole ? 1 : 0);
}
