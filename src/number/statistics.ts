/** Statistics of losses: intervals and control limits. */
import { cached } from '../once.ts';
import {
  decimal,
  divide,
  ONE,
  portion,
  root,
  roundTo,
  sum,
  ZERO,
  type Decimal,
} from './decimal.ts';

/** The lower and upper end of an interval, as fractions of 1. */
interface Interval {
  readonly low: Decimal;
  readonly high: Decimal;
}

/** So many hits among so many: lost pieces of a firing, say. Whole numbers. */
export interface Sample {
  readonly hits: number;
  readonly of: number;
}

/** How far a sample's share may stray by chance, as fractions of 1. */
export interface Limits {
  readonly upper: Decimal;
  readonly lower: Decimal;
}

/** A centre line with limits for every sample, as fractions of 1. */
interface ControlChart {
  readonly centre: Decimal;
  /** One for each sample, in order. */
  readonly limits: readonly Limits[];
  /** Indexes (from 0) of the samples beyond their limits. */
  readonly outside: readonly number[];
}

/** A control chart whose limits are widened by the spread that lies between samples. */
interface LaneyChart extends ControlChart {
  readonly sigmaZ: Decimal;
}

const TWO = decimal(2);
const FOUR = decimal(4);

/** Two-sided 95 %: the 0.975 quantile of the standard normal distribution. */
const Z = decimal('1.959963984540054');
const Z_SQUARED = Z.times(Z);

/**
 * Wilson's score interval at 95 %, in fractions of 1: the shares whose test would not reject
 * what was seen. Ends are rounded half up to 24 decimals. Undefined for no trials, or for hits
 * that are not between none and all.
 * Source: E. B. Wilson, "Probable inference, the law of succession, and statistical inference",
 * Journal of the American Statistical Association 22 (1927).
 * (2x + z² ± z √(z² + 4x(n − x)/n)) ÷ 2(n + z²)
 */
export function wilson(hits: number, of: number): Interval | undefined {
  if (of <= 0 || !isSound({ hits, of })) return undefined;
  const n = decimal(of);
  const x = decimal(hits);
  const spread = Z.times(root(Z_SQUARED.plus(portion(FOUR.times(x), n.minus(x), n))));
  const middle = TWO.times(x).plus(Z_SQUARED);
  const scale = TWO.times(n.plus(Z_SQUARED));
  return {
    low: divide(middle.minus(spread), scale),
    high: divide(middle.plus(spread), scale),
  };
}

const THREE = decimal(3);

/**
 * A p-chart: the share of hits over all samples, with limits three standard deviations away that
 * follow each sample's size, held within 0 and 1. A sample of none has the limits 0 and 1.
 * Undefined when nothing was sampled, or a sample has more hits than pieces. Rounded half up to 24
 * decimals.
 * Source: D. C. Montgomery, "Introduction to Statistical Quality Control", control charts for
 * fraction nonconforming: p̄ ± 3 √(p̄(1 − p̄)/nᵢ).
 */
export function pChart(samples: readonly Sample[]): ControlChart | undefined {
  const centre = centreOf(samples);
  return centre && chart(samples, centre, ONE);
}

/** The mean moving range of two is this many standard deviations (Montgomery, factor d2). */
const D2 = decimal('1.128');

/** The standard deviation that goes with a mean moving range. */
export function deviationOfRange(meanRange: Decimal): Decimal {
  return divide(meanRange, D2);
}

/**
 * Laney's p′ chart: a p-chart whose limits are widened (or narrowed) by σz, the mean moving range
 * of the samples' z-scores ÷ 1.128, because big or clustered loads vary by more than chance alone.
 * Samples of none are passed over. Undefined as for `pChart`, with fewer than two samples, and when
 * none or all were hit, for then there are no z-scores. Rounded half up to 24 decimals.
 * Source: P. B. Laney, "Improved control charts for attributes", Quality Engineering 14(4), 2002.
 */
export function laney(samples: readonly Sample[]): LaneyChart | undefined {
  const centre = centreOf(samples);
  const scores = centre === undefined ? [] : zScores(samples, centre);
  if (centre === undefined || scores.length < 2) return undefined;
  const sigmaZ = deviationOfRange(meanMovingRange(scores));
  return { ...chart(samples, centre, sigmaZ), sigmaZ };
}

function isSound({ hits, of }: Sample): boolean {
  return hits >= 0 && hits <= of;
}

function centreOf(samples: readonly Sample[]): Decimal | undefined {
  const hits = samples.reduce((total, sample) => total + sample.hits, 0);
  const of = samples.reduce((total, sample) => total + sample.of, 0);
  return of > 0 && samples.every(isSound) ? divide(decimal(hits), decimal(of)) : undefined;
}

function shareOf(sample: Sample): Decimal {
  return divide(decimal(sample.hits), decimal(sample.of));
}

function deviation(centre: Decimal, of: number): Decimal {
  return root(portion(centre, ONE.minus(centre), decimal(of)));
}

function chart(samples: readonly Sample[], centre: Decimal, widen: Decimal): ControlChart {
  const limitsFor = cached((of: number) => limitsOf(of, centre, widen));
  const limits = samples.map(({ of }) => limitsFor(of));
  const outside = samples.flatMap((sample, index) =>
    isOutside(sample, limits[index]) ? [index] : [],
  );
  return { centre, limits, outside };
}

function limitsOf(of: number, centre: Decimal, widen: Decimal): Limits {
  if (of === 0) return { upper: ONE, lower: ZERO };
  const reach = roundTo(THREE.times(widen).times(deviation(centre, of)), 24);
  const upper = centre.plus(reach);
  const lower = centre.minus(reach);
  return { upper: upper.gt(ONE) ? ONE : upper, lower: lower.lt(ZERO) ? ZERO : lower };
}

function isOutside(sample: Sample, limits: Limits | undefined): boolean {
  if (sample.of === 0 || limits === undefined) return false;
  const share = shareOf(sample);
  return share.gt(limits.upper) || share.lt(limits.lower);
}

function zScores(samples: readonly Sample[], centre: Decimal): Decimal[] {
  if (centre.isZero() || centre.eq(ONE)) return [];
  return samples
    .filter((sample) => sample.of > 0)
    .map((sample) => divide(shareOf(sample).minus(centre), deviation(centre, sample.of)));
}

/** The mean of the steps from each value to the next; of two values at the least. */
export function meanMovingRange(values: readonly Decimal[]): Decimal {
  const moves = values.slice(1).map((value, index) => value.minus(values[index] ?? value).abs());
  return divide(sum(moves), decimal(moves.length));
}
