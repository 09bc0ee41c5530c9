/** How many to start, against a plain second reckoning, and against draws of whole loads. */
import { createRequire } from 'node:module';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ALL_GOOD,
  correlationIn,
  shareOfNext,
  type UncertainShare,
} from '../../../src/number/beta-binomial.ts';
import { goodOfStarted, toStart, type StepAhead } from '../../../src/reckon/planning/to-start.ts';
import { holds } from '../../helpers/law.ts';
import { cases } from '../../helpers/tier.ts';

interface Reference {
  readonly gammaln: (x: number) => number;
  readonly beta: { readonly sample: (a: number, b: number) => number };
}

const { jStat } = createRequire(import.meta.url)('jstat') as {
  readonly jStat: Reference & { readonly setRandom: (random: () => number) => void };
};

function step(share: UncertainShare, waiting = 0, refired = 0): StepAhead {
  return { share, waiting, refired, refiredShare: { good: 3, bad: 2 } };
}

const shares = fc
  .record({ good: fc.integer({ min: 2, max: 200 }), bad: fc.integer({ min: 1, max: 20 }) })
  .map(({ good, bad }): UncertainShare => ({ good: good / 2, bad: bad / 2 }));
const steps = fc.array(
  fc
    .record({
      share: shares,
      waiting: fc.integer({ min: 0, max: 4 }),
      refired: fc.integer({ min: 0, max: 2 }),
    })
    .map(({ share, waiting, refired }) => step(share, waiting, refired)),
  { minLength: 1, maxLength: 3 },
);

/** The textbook formula, by logarithms of the gamma function. */
function just(count: number, k: number, { good, bad }: UncertainShare): number {
  const { gammaln } = jStat;
  const beta = (a: number, b: number): number => gammaln(a) + gammaln(b) - gammaln(a + b);
  const choose = gammaln(count + 1) - gammaln(k + 1) - gammaln(count - k + 1);
  return Math.exp(choose + beta(k + good, count - k + bad) - beta(good, bad));
}

/** The chance of so many good ones at the least: every way of it, one after the other. */
function plainly(entering: number, [first, ...more]: readonly StepAhead[], needed: number): number {
  if (!first) return entering >= needed ? 1 : 0;
  const all = entering + first.waiting;
  let chance = 0;
  for (let k = 0; k <= all; k += 1)
    for (let back = 0; back <= first.refired; back += 1) {
      const ofThis = just(all, k, first.share) * just(first.refired, back, first.refiredShare);
      chance += ofThis * plainly(k + back, more, needed);
    }
  return chance;
}

describe('toStart', () => {
  it('is the fewest that a plain reckoning finds enough', () => {
    const needs = fc.integer({ min: 0, max: 8 });
    holds(
      fc.property(needs, steps, fc.constantFrom(0.8, 0.9, 0.95), (needed, ahead, assurance) => {
        const { count, chance } = toStart({ needed, steps: ahead, assurance });
        expect(chance).toBeCloseTo(plainly(count, ahead, needed), 8);
        const isEnough = chance >= assurance;
        const isFewest = count === 0 || plainly(count - 1, ahead, needed) < assurance + 1e-9;
        expect(isFewest).toBe(true);
        if (!isEnough)
          expect(plainly(needed * 2 + 10, ahead, needed)).toBeLessThan(assurance + 1e-9);
      }),
      30,
    );
  });

  it('starts none where what is under way will do, and never counts it twice', () => {
    const surely = { good: 1e9, bad: 1 };
    expect(toStart({ needed: 5, steps: [step(surely, 5)], assurance: 0.9 }).count).toBe(0);
    expect(
      toStart({ needed: 5, steps: [step(surely, 2), step(surely, 2)], assurance: 0.9 }).count,
    ).toBe(1);
    expect(toStart({ needed: 0, steps: [step(surely)], assurance: 0.9 })).toEqual({
      count: 0,
      chance: 1,
    });
  });

  it('says how sure it is where no number is enough', () => {
    const often = { good: 0.6, bad: 0.4 };
    const { count, chance } = toStart({ needed: 6, steps: [step(often)], assurance: 0.9 });
    expect(count).toBe(10);
    expect(chance).toBeLessThan(0.9);
    expect(chance).toBeCloseTo(plainly(10, [step(often)], 6), 8);
  });

  it('has the chances of all that is started', () => {
    const chances = goodOfStarted(2, [step({ good: 1, bad: 1 })]);
    expect(chances.map((chance) => chance.toFixed(6))).toEqual([
      '0.333333',
      '0.333333',
      '0.333333',
    ]);
  });
});

/** Numbers from 0 to 1 of a known seed (mulberry32). */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

interface Studio {
  /** What comes through a load on average, and how alike its pieces fare. */
  readonly mean: number;
  readonly alike: number;
  /** Loads on record. */
  readonly loads: number;
}

const STUDIOS: readonly Studio[] = [
  { mean: 0.93, alike: 0.03, loads: 40 },
  { mean: 0.96, alike: 0.02, loads: 60 },
  { mean: 0.9, alike: 0.06, loads: 100 },
];

const DISASTER = { chance: 1 / 30, mean: 0.4 };

describe('a promise', () => {
  // Whole loads are drawn: the pieces of one share its luck, and one load in thirty goes wrong.
  it.each(STUDIOS)('is kept as often as it is made: %o', ({ mean, alike, loads }) => {
    const random = seeded(20260630);
    jStat.setRandom(random);
    const size = (1 - alike) / alike;
    const draw = (): number => {
      const of = random() < DISASTER.chance ? DISASTER.mean : mean;
      return jStat.beta.sample(of * size, (1 - of) * size);
    };
    const good = (count: number): number => {
      const share = draw();
      return Array.from({ length: count }, () => (random() < share ? 1 : 0)).reduce<number>(
        (a, b) => a + b,
        0,
      );
    };
    const record = (): UncertainShare => {
      const samples = Array.from({ length: loads }, () => {
        const of = 8 + Math.floor(random() * 24);
        return { of, hits: good(of) };
      });
      return shareOfNext(samples, correlationIn(samples));
    };
    const runs = cases(150, 2000);
    let [promised, kept] = [0, 0];
    for (let run = 0; run < runs; run += 1) {
      const needed = 10 + Math.floor(random() * 15);
      const ahead = [record(), record()].map((share) => ({
        ...step(share),
        refiredShare: ALL_GOOD,
      }));
      const { count, chance } = toStart({ needed, steps: ahead, assurance: 0.9 });
      promised += Math.min(chance, 0.9);
      if (good(good(count)) >= needed) kept += 1;
    }
    // In few runs chance alone makes a difference of some points.
    const chanceAlone = 2.5 * Math.sqrt(0.09 / runs);
    expect(kept / runs).toBeGreaterThan(promised / runs - 0.02 - (runs < 2000 ? chanceAlone : 0));
  });
});
