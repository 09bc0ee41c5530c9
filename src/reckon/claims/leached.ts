/** What a laboratory found to come out of ware, and what it comes to against a limit. */
import type { LeachLimit } from '../../book.ts';
import { ZERO, decimal, divide, sum, type Decimal } from '../../number/decimal.ts';

/** An amount that was found, or `under` one: less than that could not be told. */
export interface Leached {
  readonly isUnder: boolean;
  readonly value: Decimal;
  /** µg/mL are mg/L. */
  readonly unit: 'mg/L' | 'mg/dm2';
}

const LEACHED = /^(under\s+|<\s*)?(\d{1,6}(?:\.\d{1,10})?)\s*([µμu]g\/mL|mg\/L|mg\/dm[2²])$/i;

/** `under 0.01 µg/mL`, `0.35 mg/L`, `0.02 mg/dm2`; undefined for words that are no such amount. */
export function parseLeached(text: string): Leached | undefined {
  const [, under, number, unit = ''] = LEACHED.exec(text.trim()) ?? [];
  if (number === undefined) return undefined;
  const isArea = unit.toLowerCase().includes('dm');
  return { isUnder: under !== undefined, value: decimal(number), unit: isArea ? 'mg/dm2' : 'mg/L' };
}

/** What a result comes to: what is exactly at the limit is within it. */
export type Held = 'under' | 'over' | 'too-coarse' | 'not-comparable';

/** Holds what was found in the specimens against a limit, by the sheet's rule for that ware. */
export function heldAgainst({ most, of = 'each' }: LeachLimit, found: readonly Leached[]): Held {
  const limit = parseLeached(most);
  if (!limit || found.length === 0 || found.some(({ unit }) => unit !== limit.unit))
    return 'not-comparable';
  if (of === 'mean of six') return heldMean(limit.value, found);
  const held = heldEach(limit.value, found);
  return held === 'over' && of === 'each, or three more' ? heldAgain(limit.value, found) : held;
}

function heldEach(limit: Decimal, found: readonly Leached[]): Held {
  const beyond = found.filter(({ value }) => value.gt(limit));
  if (beyond.some(({ isUnder }) => !isUnder)) return 'over';
  return beyond.length > 0 ? 'too-coarse' : 'under';
}

/** Of a specimen that is `under` an amount, nothing or all of it may have been there. */
function heldMean(limit: Decimal, found: readonly Leached[]): Held {
  const count = decimal(found.length);
  const highest = divide(sum(found.map(({ value }) => value)), count);
  if (highest.lte(limit)) return 'under';
  const least = found.map(({ isUnder, value }) => (isUnder ? ZERO : value));
  return divide(sum(least), count).gt(limit) ? 'over' : 'too-coarse';
}

const MORE = 3;
const HALF_MORE = decimal('1.5');

/**
 * Over by not more than half, ware passes where three more of the same have a mean within the limit and
 * none of them is over by more than half (directive 84/500/EEC, article 2).
 */
function heldAgain(limit: Decimal, found: readonly Leached[]): Held {
  const farthest = limit.times(HALF_MORE);
  if (found.some(({ value }) => value.gt(farthest)) || found.length <= MORE) return 'over';
  const worst = found.reduce((one, other) => (other.value.gt(one.value) ? other : one));
  return heldMean(
    limit,
    found.filter((each) => each !== worst),
  );
}
