/**
 * How many of some pieces come through, when the share that does is uncertain and the same for all of
 * them: the beta-binomial distribution, its spread fitted to loads. In plain numbers: only + − × ÷, which
 * are the same on every machine, and no figure of money or stock comes out of it.
 */
import type { Sample } from './statistics.ts';

/** The share that comes through: a Beta distribution with these two parameters; `bad` 0 is certainty. */
export interface UncertainShare {
  readonly good: number;
  readonly bad: number;
}

/** The share of what is never lost. */
export const ALL_GOOD: UncertainShare = { good: 1, bad: 0 };

/** The chances of 0, 1, 2 … of some pieces; they add up to 1. */
export type Chances = readonly number[];

/** How much comes through on average, as a fraction of 1. */
export function meanShare({ good, bad }: UncertainShare): number {
  return good / (good + bad);
}

/** The chances of one certain count. */
export function exactly(count: number): Chances {
  return Array.from({ length: count + 1 }, (_, k) => (k === count ? 1 : 0));
}

/**
 * The chances of k good ones among a count: C(count, k) × B(k + good, count − k + bad) ÷ B(good, bad), by
 * the ratio of each to the next, from the mean outwards.
 * Source: the posterior predictive distribution of any textbook on Bayesian statistics (R: choose, lbeta).
 */
export function betaBinomial(count: number, { good, bad }: UncertainShare): Chances {
  if (bad === 0) return exactly(count);
  const upBy = (k: number): number =>
    ((count - k) / (k + 1)) * ((k + good) / (count - k - 1 + bad));
  const weights = new Array<number>(count + 1).fill(1);
  const middle = Math.round((count * good) / (good + bad));
  for (let k = middle; k < count; k += 1) weights[k + 1] = (weights[k] ?? 0) * upBy(k);
  for (let k = middle; k > 0; k -= 1) weights[k - 1] = (weights[k] ?? 0) / upBy(k - 1);
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / all);
}

/** Less than this of a chance changes no plan. */
const NO_CHANCE = 1e-12;

/** What comes through of an uncertain count. */
export function through(entering: Chances, share: UncertainShare): Chances {
  if (share.bad === 0) return entering;
  const out = entering.map(() => 0);
  entering.forEach((chance, count) => {
    if (chance < NO_CHANCE) return;
    betaBinomial(count, share).forEach((each, k) => {
      out[k] = (out[k] ?? 0) + chance * each;
    });
  });
  return out;
}

/** The chances of the sum of two counts that have nothing to do with each other. */
export function sumOfCounts(one: Chances, other: Chances): Chances {
  const all = new Array<number>(one.length + other.length - 1).fill(0);
  one.forEach((chance, k) => {
    if (chance === 0) return;
    other.forEach((each, more) => {
      all[k + more] = (all[k + more] ?? 0) + chance * each;
    });
  });
  return all;
}

/** The chance of at least so many. */
export function atLeast(chances: Chances, least: number): number {
  const fewer = chances.slice(0, Math.max(0, least));
  return least >= chances.length ? 0 : 1 - fewer.reduce((sum, chance) => sum + chance, 0);
}

/**
 * How alike the pieces of one load fare: their correlation ρ by moments, from 0, where each is on its own
 * (the binomial; never less), towards 1, where a load comes out whole or not at all.
 * Σ nᵢ(pᵢ − p)² is expected to be p(1 − p)(k − 1 + ρ(N − Σnᵢ²/N − k + 1)) for k loads of N pieces.
 * Source: J. C. Kleinman, "Proportions with extraneous variance: single and independent samples",
 * Journal of the American Statistical Association 68 (1973), with the weights nᵢ (from memory).
 */
export function correlationIn(loads: readonly Sample[]): number {
  const filled = loads.filter(({ of }) => of > 0);
  const { hits, of } = sumOfSamples(filled);
  const mean = hits / of;
  const room = of - filled.reduce((sum, load) => sum + load.of ** 2, 0) / of - (filled.length - 1);
  if (!(mean > 0 && mean < 1 && room > 0)) return 0;
  const spread = filled.reduce((sum, load) => sum + load.of * (load.hits / load.of - mean) ** 2, 0);
  const correlation = (spread / (mean * (1 - mean)) - (filled.length - 1)) / room;
  return Math.min(Math.max(correlation, 0), MOST_ALIKE);
}

const MOST_ALIKE = 0.99;

/**
 * The share of the next load, from what came through so far: Jeffreys' prior, and what was seen, which
 * counts for less where pieces of a load fare alike (n ÷ (1 + (n − 1)ρ) for each); wider by ρ than what is
 * known of the rate. With ρ 0 it is Beta(good + ½, bad + ½).
 * Source: H. Jeffreys, "An invariant form for the prior probability in estimation problems", 1946; the
 * design effect of L. Kish, "Survey Sampling", 1965 (both from memory).
 */
export function shareOfNext(loads: readonly Sample[], correlation: number): UncertainShare {
  const filled = loads.filter(({ of }) => of > 0);
  const { hits, of } = sumOfSamples(filled);
  const known = filled.reduce((sum, load) => sum + load.of / (1 + (load.of - 1) * correlation), 0);
  const mean = (known * (of === 0 ? 0 : hits / of) + 0.5) / (known + 1);
  const ofRate = 1 / (known + 2);
  const inAll = 1 - (1 - correlation) * (1 - ofRate);
  const size = (1 - inAll) / inAll;
  return { good: mean * size, bad: (1 - mean) * size };
}

function sumOfSamples(samples: readonly Sample[]): Sample {
  const hits = samples.reduce((sum, sample) => sum + sample.hits, 0);
  return { hits, of: samples.reduce((sum, sample) => sum + sample.of, 0) };
}
