/** How far a figure may be from its like before it is doubted. */
import type { AlikeFigures, Far, Yardstick, UsualRange } from './figure.ts';

/** The sizes between which a figure is not doubted. */
interface SizeLimits {
  readonly least: number;
  readonly most: number;
}

/** So many figures, the doubted one among them, show what is usual. */
export const ENOUGH = 4;

/** Times or parts of the middle one that are not doubted. */
const OF_MIDDLE = 6;

/** Where little is known, times or parts of all that came before. */
const OF_FEW = 7;

/** Figures that are several times what is usual, or a small part of it. */
export const BY_TIMES = byTimes(3);

/** The same for figures that are of many sizes: only what is far from all but a few. */
export const BY_MANY_TIMES = byTimes(7);

/** At least six times the middle one, and so many times those between which nearly all are. */
function byTimes(ofMost: number): Yardstick {
  return {
    far: (alike) =>
      alike.sizes.length < ENOUGH
        ? farFromEarlier(alike)
        : farFromAll(alike, ({ low, middle, high }) => ({
            least: Math.min(middle / OF_MIDDLE, low / ofMost),
            most: Math.max(middle * OF_MIDDLE, high * ofMost),
          })),
    words: (size, { middle }) => timesWords(size / middle),
    isByTimes: true,
  };
}

/** A factor in words: `10 times`, `1/12 of`. */
export function timesWords(factor: number): string {
  return factor >= 1 ? `${inShort(factor)} times` : `1/${inShort(1 / factor)} of`;
}

function inShort(number: number): string {
  return String(number < 100 ? Math.round(number * 10) / 10 : Math.round(number));
}

/** Steps, such as cones, beyond those between which nearly all figures are. */
interface Steps {
  readonly above: number;
  readonly below: number;
  readonly unit: string;
  /** The most that is not doubted while little is known; absent: nothing is. */
  readonly mostAtFirst?: number;
}

/** Figures on a scale that are so many steps from nearly all others. */
export function bySteps({ above, below, unit, mostAtFirst = Infinity }: Steps): Yardstick {
  return {
    far: (alike) =>
      alike.sizes.length < ENOUGH
        ? farFromAll(alike, () => ({ least: -Infinity, most: mostAtFirst }))
        : farFromAll(alike, ({ low, high }) => ({ least: low - below, most: high + above })),
    words: (size, { middle }) =>
      `${Math.abs(Math.round(size - middle))} ${unit} ${size > middle ? 'above' : 'below'}`,
  };
}

/** Shares of what can't be more than a whole; where most are beyond it, the whole is wrong. */
export function byShare({ least, most }: SizeLimits): Yardstick {
  return {
    far: (alike) => {
      const { middle } = usualIn(alike.sizes);
      const isSound = alike.sizes.length === 1 || (middle >= least && middle <= most);
      return isSound ? farFromAll(alike, () => ({ least, most })) : [];
    },
    words: (size) => `${Math.round(size * 100)}% of`,
  };
}

/** What figures come to, the one in ten at each end left out. */
export function usualIn(sizes: readonly number[]): UsualRange {
  const sorted = Float64Array.from(sizes).sort();
  const last = sorted.length - 1;
  return {
    low: sorted[Math.ceil(last / 10)] ?? 0,
    middle: sorted[Math.floor(last / 2)] ?? 0,
    high: sorted[Math.floor((last * 9) / 10)] ?? 0,
  };
}

function farFromAll(
  { sizes }: AlikeFigures,
  boundsOf: (usual: UsualRange) => SizeLimits,
): readonly Far[] {
  const usual = usualIn(sizes);
  const { least, most } = boundsOf(usual);
  const far: Far[] = [];
  sizes.forEach((size, at) => {
    if (size < least || size > most) far.push({ at, usual });
  });
  return far;
}

/** Of two figures nobody can tell which one is wrong, so the later one is asked about. */
function farFromEarlier(alike: AlikeFigures): readonly Far[] {
  return alike.sizes.flatMap((size, at) => {
    const earlier = alike.sizes.filter((_, other) => isBefore(alike, other, at));
    if (earlier.length === 0) return [];
    const [least, most] = [Math.min(...earlier), Math.max(...earlier)];
    const isFar = size > most * OF_FEW || size < least / OF_FEW;
    return isFar ? [{ at, usual: usualIn(earlier) }] : [];
  });
}

function isBefore({ days }: AlikeFigures, one: number, other: number): boolean {
  const [first = 0, second = 0] = [days[one], days[other]];
  return first === second ? one < other : first < second;
}
