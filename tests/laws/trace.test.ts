/** A trace never calls a fact what isn't one, nor leaves out what is: against where the pots truly went. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { originOf, type TraceStart } from '../../src/reckon/tracing/start.ts';
import { traced, type Trace } from '../../src/reckon/tracing/trace.ts';
import { bookFrom } from '../helpers/book.ts';
import { holds } from '../helpers/law.ts';
import type { Pot, ShelfLife } from './support/kept-life.ts';
import { shelfLife } from './support/shelf-life.ts';

const seeds = fc.integer({ min: 0, max: 2 ** 31 - 1 });

interface Traced {
  readonly life: ShelfLife;
  readonly found: Trace;
  /** Whether a pot truly has what is traced. */
  readonly has: (pot: Pot) => boolean;
}

function originsOf(life: ShelfLife): { id: string; has: (pot: Pot) => boolean }[] {
  return [
    ...life.supplies.map(({ id, key }) => ({ id, has: (pot: Pot) => pot.in.has(key) })),
    ...life.firings.map((id) => ({ id, has: (pot: Pot) => pot.in.has(id) })),
    ...life.lots.map((id) => ({ id, has: (pot: Pot) => pot.lot === id })),
  ];
}

function tracedIn(seed: number): Traced[] {
  const life = shelfLife(seed);
  const book = bookFrom(life.files);
  const flows = flow(book, life.asOf);
  return originsOf(life).map(({ id, has }) => {
    const origin = originOf({ book, flows, id }) as TraceStart;
    return { life, has, found: traced(book, flows, origin) };
  });
}

function within(count: number, bounds: { least: number; most: number } | undefined, of: string) {
  const { least, most } = bounds ?? { least: 0, most: 0 };
  expect({ of, least, count, most }).toSatisfy(() => least <= count && count <= most);
}

function counts({ life, has }: Traced, keyOf: (pot: Pot) => string | undefined) {
  const found = new Map<string, number>();
  for (const pot of life.pots) {
    const key = has(pot) ? keyOf(pot) : undefined;
    if (key !== undefined) found.set(key, (found.get(key) ?? 0) + 1);
  }
  return found;
}

function holdAll(
  traced: Traced,
  bounds: ReadonlyMap<string, { least: number; most: number }>,
  keyOf: (pot: Pot) => string | undefined,
): void {
  const truly = counts(traced, keyOf);
  for (const key of new Set([...truly.keys(), ...bounds.keys()]))
    within(truly.get(key) ?? 0, bounds.get(key), key);
}

it('recorded ≤ true ≤ possible, of lots', () => {
  holds(
    fc.property(seeds, (seed) => {
      for (const traced of tracedIn(seed)) {
        const lots = new Map(traced.found.lots.map((each) => [each.lot.id, each]));
        holdAll(traced, lots, ({ lot }) => lot);
      }
    }),
    20,
  );
});

it('recorded ≤ true ≤ possible, of each line by which pieces left', () => {
  holds(
    fc.property(seeds, (seed) => {
      for (const traced of tracedIn(seed)) {
        const left = traced.found.left.filter(({ move }) => move.way !== 'returned');
        const lines = new Map(left.map((each) => [`${each.move.id}/${each.move.line}`, each]));
        for (const key of counts(traced, ({ left: lines }) => lines.at(-1)).keys())
          expect([...lines.keys()]).toContain(key);
        const truly = new Map<string, number>();
        const gone = traced.life.pots.filter(traced.has).flatMap((pot) => pot.left);
        for (const line of gone) truly.set(line, (truly.get(line) ?? 0) + 1);
        for (const [key, each] of lines) within(truly.get(key) ?? 0, each, key);
      }
    }),
    20,
  );
});

it('recorded ≤ true ≤ possible, of what stands where', () => {
  holds(
    fc.property(seeds, (seed) => {
      for (const traced of tracedIn(seed)) {
        const finished = traced.found.standing.filter(({ stage }) => stage === undefined);
        const places = new Map(
          finished.map((each) => [`${each.product} ${each.glaze} ${each.place}`, each]),
        );
        holdAll(traced, places, ({ product, glaze, place, finished: isDone }) =>
          isDone && place !== undefined ? `${product} ${glaze} ${place}` : undefined,
        );
        const stages = new Map(
          traced.found.standing
            .filter(({ stage }) => stage !== undefined)
            .map((each) => [`${each.lots[0]} ${each.stage}`, each]),
        );
        holdAll(traced, stages, ({ lot, stage, place, finished: isDone }) =>
          !isDone && place !== undefined ? `${lot} ${stage}` : undefined,
        );
      }
    }),
    20,
  );
});

it('what is recorded as gone, what stands and what was lost is never more than was made', () => {
  holds(
    fc.property(seeds, (seed) => {
      const life = shelfLife(seed);
      const book = bookFrom(life.files);
      const flows = flow(book, life.asOf);
      for (const lot of book.pieces.values()) {
        const origin = originOf({ book, flows, id: lot.id }) as TraceStart;
        const { left, standing } = traced(book, flows, origin);
        const net = left.map(({ move, least, most }) => (move.way === 'returned' ? -most : least));
        const sum = [...net, ...standing.map(({ least }) => least)].reduce((a, b) => a + b, 0);
        const lost = [...book.firings.values()]
          .flatMap(({ load }) =>
            load.filter((line) => line.lot === lot.id && line.refire !== 'yes'),
          )
          .reduce((all, line) => all + (line.lost ?? 0), 0);
        expect(sum + lost).toBeLessThanOrEqual(lot.made);
      }
    }),
    20,
  );
});
