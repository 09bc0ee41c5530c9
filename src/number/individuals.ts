/** Individuals chart: single values one after the other, and which of them don't fit in with the others. */
import { decimal, divide, sum, type Decimal } from './decimal.ts';
import { meanMovingRange, deviationOfRange, type Limits } from './statistics.ts';

/** On which side of the centre a value is, and how far. */
export type OutOfLine = 'above' | 'below' | 'run-above' | 'run-below';

/** Values beside their mean and limits. */
export interface IndividualsChart {
  readonly centre: Decimal;
  readonly limits: Limits;
  /** One for each value, in order: beyond a limit, or the eighth or later of a run; undefined where it fits in. */
  readonly found: readonly (OutOfLine | undefined)[];
}

/** Of fewer values nothing is said. */
export const LEAST_CHARTED = 10;

const RUN = 8;
const THREE_SIGMA = decimal(3);

/**
 * Mean ± 3 × mean moving range ÷ 1.128; eight in a row on one side of the mean are a run, and a value on
 * the mean ends it. Undefined for fewer than ten values.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 (chart) and 6.3.2 (run of eight).
 */
export function individuals(values: readonly Decimal[]): IndividualsChart | undefined {
  if (values.length < LEAST_CHARTED) return undefined;
  const centre = divide(sum(values), decimal(values.length));
  const reach = THREE_SIGMA.times(deviationOfRange(meanMovingRange(values)));
  const limits = { upper: centre.plus(reach), lower: centre.minus(reach) };
  let run = 0;
  const found = values.map((value) => {
    const side = value.cmp(centre);
    run = Math.sign(run) === side ? run + side : side;
    return outOfLine(value, limits, run);
  });
  return { centre, limits, found };
}

function outOfLine(value: Decimal, { upper, lower }: Limits, run: number): OutOfLine | undefined {
  if (value.gt(upper)) return 'above';
  if (value.lt(lower)) return 'below';
  if (Math.abs(run) < RUN) return undefined;
  return run > 0 ? 'run-above' : 'run-below';
}
