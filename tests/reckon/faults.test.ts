/** Which loads had a fault, by what they have in common. */
import { expect, it } from 'vitest';
import { faultGroups } from '../../src/reckon/tracing/faults.ts';
import { bookFrom } from '../helpers/book.ts';

/** Lots p0, p1 … each glazed in a firing of its own: those of mix m2 crazed. */
function studioOf(count: number) {
  const lots = Array.from({ length: count }, (_, at) => ({
    at,
    mix: at < count / 2 ? 'm1' : 'm2',
  }));
  const day = (at: number): string => String(at + 1).padStart(2, '0');
  return bookFrom({
    products: 'mug: { name: Mug, glazes: [{ recipe: green, each: 9 g }] }',
    mixed:
      'm1: { date: 2026-01-01, recipe: green, base-weight: 1 kg, lots: { frit: B1 } }\nm2: { date: 2026-01-01, recipe: green, base-weight: 1 kg, lots: { frit: B2 } }',
    pieces: lots
      .map(
        ({ at, mix }) =>
          `p${at}: { date: 2026-01-02, product: mug, made: 4, mixes: { green: ${mix} } }`,
      )
      .join('\n'),
    firings: lots
      .map(({ at, mix }) => {
        const why = mix === 'm2' ? ', why: { crazed: 3 }' : '';
        const shelf = at % 2 === 0 ? ', shelf: top' : '';
        const line = `{ lot: p${at}, in: 4, first: ${mix === 'm2' ? 1 : 4}, second: ${mix === 'm2' ? 3 : 0}${why}${shelf} }`;
        return `f${at}: { date: 2026-02-${day(at)}, kiln: big, kind: glaze, load: [${line}] }\nb${at}: { date: 2026-01-${day(at)}, kiln: big, kind: bisque, load: [{ lot: p${at}, in: 4, first: 4 }] }`;
      })
      .join('\n'),
  });
}

it('names the mix and the bag whose loads differ, with lines counted and not pieces', () => {
  const groups = faultGroups(studioOf(20), 'crazed', '2026-06-30');
  const mix = groups.find(({ value }) => value === 'm2');
  expect(mix).toMatchObject({
    by: 'mix',
    lines: 10,
    faulty: 10,
    otherLines: 10,
    otherFaulty: 0,
    pieces: 30,
  });
  // 1 ÷ (20 over 10), twice.
  expect(mix?.chance).toBeCloseTo(2 / 184756, 10);
  expect(mix?.corrected).toBeCloseTo((2 / 184756) * groups.length, 8);
  expect(groups.find(({ value }) => value === 'frit B2')?.chance).toBeCloseTo(2 / 184756, 10);
  const differing = groups.filter(({ corrected }) => corrected <= 0.05).map(({ by }) => by);
  expect(new Set(differing)).toEqual(new Set(['mix', 'bag']));
});

it('leaves out firings of a kind that the fault never came of, and what no record says', () => {
  const groups = faultGroups(studioOf(6), 'crazed', '2026-06-30');
  expect(groups.some(({ value }) => value.startsWith('b'))).toBe(false);
  expect(groups.filter(({ by }) => by === 'shelf' || by === 'maker')).toEqual([]);
  expect(faultGroups(studioOf(6), 'crazed', '2026-01-31')).toEqual([]);
  expect(faultGroups(studioOf(6), 'shivered', '2026-06-30')).toEqual([]);
});
