/** LR: whole shares of a whole amount by weights, by largest remainder. */
import { count, fraction, size, times, type Fraction } from './fraction.ts';

/** The shares of an amount, in the order of the weights; they add up to it. */
export function largestRemainder(amount: bigint, weights: readonly Fraction[]): bigint[] {
  const whole = wholeWeights(weights);
  const all = whole.reduce((sum, weight) => sum + weight, 0n);
  if (all === 0n) return weights.length === 0 ? [] : equally(amount, weights.length);
  const shares = whole.map((weight) => (size(amount) * weight) / all);
  const left = size(amount) - shares.reduce((sum, share) => sum + share, 0n);
  const odd = new Set(byRemainder(size(amount), whole, all).slice(0, Number(left)));
  const sign = amount < 0n ? -1n : 1n;
  return shares.map((share, at) => sign * (share + (odd.has(at) ? 1n : 0n)));
}

/** Each counts the same. */
export function equally(amount: bigint, parts: number): bigint[] {
  return largestRemainder(
    amount,
    Array.from({ length: parts }, () => count(1)),
  );
}

/** The weights' magnitudes times one number that makes them whole. */
function wholeWeights(weights: readonly Fraction[]): bigint[] {
  const common = weights.reduce((product, { bottom }) => product * bottom, 1n);
  return weights.map((weight) => size(times(weight, fraction(common)).top));
}

/** Places of the weights by their remainders, the largest first, of equal ones the first. */
function byRemainder(amount: bigint, weights: readonly bigint[], all: bigint): number[] {
  const remainders = weights.map((weight, at) => ({ at, left: (amount * weight) % all }));
  remainders.sort((a, b) => (a.left === b.left ? a.at - b.at : a.left > b.left ? -1 : 1));
  return remainders.map(({ at }) => at);
}
