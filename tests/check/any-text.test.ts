/** Whatever stands in a studio's records, the check says what is wrong and never throws. */
import * as fc from 'fast-check';
import { FAILSAFE_SCHEMA, load } from 'js-yaml';
import { expect, test } from 'vitest';
import type { Kind } from '../../src/book.ts';
import type { Raw, RawMap } from '../../src/read/raw.ts';
import { RULES } from '../../src/check/rules.ts';
import { holds } from '../helpers/law.ts';
import { checkStudio } from '../helpers/check-studio.ts';
import { fixtureTexts } from '../helpers/fixtures.ts';
import type { ReadingToCheck } from '../../src/check/taken.ts';

interface Root {
  readonly file: string;
  readonly root: RawMap;
}

const STUDIOS: readonly (readonly Root[])[] = RULES.flatMap(({ name }) =>
  (['bad', 'good'] as const).map((side) =>
    [...fixtureTexts(name, side)].map(([file, text]) => ({
      file,
      root: load(text, { schema: FAILSAFE_SCHEMA }) as RawMap,
    })),
  ),
);

const SCALARS = [
  ...['', '0', '-1', '1', '3', '0.5', '1e3', '999999999', '2026-02-29', '2026-06-30', '0001-01-01'],
  ...['bowl', 'p1', 'f1', 'clear', 'corner', 'feldspar', 'yes', 'no', 'null', '__proto__', 'front'],
  ...['5 kg', '5 L', '12 ccf', '0 kWh', '3 x 2 lb', '100%', '04', '6', 'glaze', 'once', 'studio'],
];

const CHANGES = ['drop', 'scalar', 'empty list', 'empty map', 'twice'] as const;

interface Change {
  readonly what: (typeof CHANGES)[number];
  readonly where: readonly number[];
  readonly scalar: string;
}

const change = fc.record({
  what: fc.constantFrom(...CHANGES),
  where: fc.array(fc.nat({ max: 40 }), { minLength: 1, maxLength: 6 }),
  scalar: fc.constantFrom(...SCALARS),
});

/** The value with one part changed; the numbers say which way to go down. */
function changed(value: Raw, { what, where, scalar }: Change): Raw {
  const [next, ...rest] = where;
  const keys = typeof value === 'string' ? [] : Object.keys(value);
  const key = next === undefined ? undefined : keys[next % keys.length];
  if (key === undefined) return replaced(value, what, scalar);
  const parts = Object.entries(value as RawMap).flatMap(([name, part]): [string, Raw][] => {
    if (name !== key) return [[name, part]];
    if (rest.length === 0 && what === 'drop') return [];
    return [[name, changed(part, { what, where: rest, scalar })]];
  });
  return Array.isArray(value) ? parts.map(([, part]) => part) : Object.fromEntries(parts);
}

function replaced(value: Raw, what: Change['what'], scalar: string): Raw {
  if (what === 'empty list') return [];
  if (what === 'empty map') return {};
  if (what === 'twice' && Array.isArray(value)) return [...(value as Raw[]), ...(value as Raw[])];
  return scalar;
}

function readingOf(roots: readonly Root[]): ReadingToCheck {
  const files = roots.map(({ file, root }) => {
    const kind = file.replace(/(?:\/.*|\.yaml)$/, '') as Kind | 'studio';
    return { file, kind, root, odd: false };
  });
  return { files, findings: [], coreOf: () => undefined };
}

const studio = fc
  .tuple(
    fc.constantFrom(...STUDIOS),
    fc.array(fc.tuple(fc.nat(), change), { minLength: 1, maxLength: 4 }),
  )
  .map(([roots, changes]) => {
    const mutated = [...roots];
    for (const [which, one] of changes) {
      const at = which % mutated.length;
      const { file, root } = mutated[at] ?? { file: '', root: {} };
      const next = changed(root, one);
      if (typeof next === 'object' && !Array.isArray(next))
        mutated[at] = { file, root: next as RawMap };
    }
    return mutated;
  });

test('a studio with anything in it is checked without a throw', () => {
  holds(
    fc.property(studio, (roots) => {
      const { findings } = checkStudio(readingOf(roots), '2026-06-30');
      for (const { message, hint } of findings) {
        expect(`${message} ${hint}`).not.toMatch(/undefined|NaN|\[object/);
        expect(`${message} ${hint}`).not.toMatch(/\.$/);
      }
    }),
    200,
  );
});

test('the order of the files changes no finding but which of two equal ids is first', () => {
  holds(
    fc.property(studio, (roots) => {
      const there = checkStudio(readingOf(roots), '2026-06-30');
      const back = checkStudio(readingOf([...roots].reverse()), '2026-06-30');
      const lines = ({ findings }: typeof there): string[] =>
        findings
          .filter(({ rule }) => rule !== 'duplicate-id')
          .map((finding) => JSON.stringify(finding))
          .sort();
      expect(lines(back)).toEqual(lines(there));
    }),
    80,
  );
});
