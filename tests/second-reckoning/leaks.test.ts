/** Nothing leaks: what came in is there or went somewhere, exactly, for each component and in all. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book, Day } from '../../src/book.ts';
import { filesOf } from '../laws/support/broken.ts';
import { dayIn, part } from '../laws/support/days.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from '../laws/support/open.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { FREE, addAll, total, type Cost } from './costs.ts';
import { makingLabour } from './making.ts';
import { reckonAgain } from './reckon-again.ts';
import type { Movement, Reason, SecondReckoning } from './result.ts';

const plans = fc.oneof(
  fc.tuple(studioPlan(), fc.constant(undefined)),
  fc.tuple(studioPlan({ breaks: 'some' }), fc.constant(undefined)),
  fc.tuple(studioPlan({ breaks: 'some' }), fc.nat()),
);

const sum = (amounts: readonly bigint[]): bigint => amounts.reduce((all, one) => all + one, 0n);

function moved({ pools }: SecondReckoning, ...reasons: readonly Reason[]): bigint {
  const all = [...pools.values()].flatMap(({ movements }) => movements);
  const some = all.filter(({ reason }) => reasons.includes(reason));
  return sum(some.map(({ value }: Movement) => value));
}

/** What making, firing and packing put in, by component, and what else left the stock. */
function putIn(book: Book, day: Day, again: SecondReckoning): Cost {
  const firings = [...again.firings.values()];
  const lots = [...book.pieces.values()].filter(({ date }) => date <= day);
  const making = lots.map((lot) => makingLabour(book, lot));
  return {
    clay: -moved(again, 'clay'),
    glaze: -moved(again, 'glaze'),
    energy: sum(firings.map(({ energy }) => energy)),
    fuel: -moved(again, 'fuel'),
    wear: sum(firings.map(({ wear }) => wear)),
    supplies: -moved(again, 'supplies'),
    packing: -moved(again, 'packing'),
    labour: sum([...firings.map(({ labour }) => labour), ...making]),
    material: -moved(again, 'used', 'counted', 'settled'),
  };
}

/** What is in piles and kilns, and what went to an account. */
function standingAndGone({ lots, went }: SecondReckoning): Cost {
  const piles = [...lots.values()].flatMap(({ stages, inKilns, finished }) => [
    ...[...stages, ...inKilns, finished].map(({ cost }) => cost),
  ]);
  return addAll([...piles, ...went.map(({ cost }) => cost)]);
}

function cameIn(book: Book, day: Day, again: SecondReckoning): bigint {
  const { energy, wear, labour } = putIn(book, day, again);
  return moved(again, 'bought', 'reclaimed') + energy + wear + labour;
}

describe('nothing leaks', () => {
  it('out of the second reckoning of random studios', async () => {
    await holds(
      fc.asyncProperty(plans, part, async ([plan, seed], when) => {
        const { book: read } = await openFiles(filesOf(plan, seed), growStudio(plan).asOf);
        for (const stockValue of ['average', 'first-in'] as const) {
          const book = { ...read, studio: { ...read.studio, stockValue } };
          const day = dayIn(plan, when);
          const again = reckonAgain(book, day);
          const there = standingAndGone(again);
          expect(there).toEqual(putIn(book, day, again));
          const inPools = sum([...again.pools.values()].map(({ value }) => value));
          expect(inPools + total(there)).toBe(cameIn(book, day, again));
          expectPoolsToBeTheirMovements(again);
          expectHoldingsToBeTheirPile(again);
          expectSharesToBeTheirFiring(again);
        }
      }),
      12,
    );
  });
});

function expectPoolsToBeTheirMovements({ pools }: SecondReckoning): void {
  for (const { value, movements } of pools.values())
    expect(sum(movements.map((one) => one.value))).toBe(value);
}

function expectHoldingsToBeTheirPile({ lots }: SecondReckoning): void {
  for (const { finished, holdings } of lots.values()) {
    const held = addAll(holdings.map(({ cost }) => cost));
    expect(held).toEqual(finished.count === 0 ? FREE : finished.cost);
    const pieces = holdings.reduce((all, { count }) => all + count, 0);
    expect(pieces).toBe(finished.count);
    if (finished.count === 0) expect(finished.cost).toEqual(FREE);
  }
}

function expectSharesToBeTheirFiring({ firings, went }: SecondReckoning): void {
  for (const [id, firing] of firings) {
    const empty = went.filter((one) => one.record === id && one.what === 'empty');
    const emptied = addAll(empty.map(({ cost }) => cost));
    for (const one of ['energy', 'fuel', 'wear', 'supplies', 'labour'] as const)
      expect(sum(firing.lines.map((line) => line[one])) + emptied[one]).toBe(firing[one]);
  }
}
