/** Where new records go and what ids they get. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEFINITION_KINDS, EVENT_KINDS, type Kind } from '../../src/book.ts';
import { KIND_LETTERS, newId, targetFile } from '../../src/write/target.ts';
import { holds } from '../helpers/law.ts';

const day = '2026-03-08';

function target(kind: Kind, files: readonly string[] = []): string {
  return targetFile({ kind, id: 'x260308kt', day }, files);
}

describe('a new studio', () => {
  test.each(['pieces', 'mixed', 'firings'] as const)('gives %s a file each', (kind) => {
    expect(target(kind)).toBe(`${kind}/x260308kt.yaml`);
    expect(target(kind, [`${kind}/a.yaml`])).toBe(`${kind}/x260308kt.yaml`);
  });

  test.each([
    'bought',
    'sales',
    'advances',
    'consigned',
    'spent',
    'used',
    'reclaimed',
    'counted',
    'tests',
  ] as const)('gives %s a file a month', (kind) => {
    expect(target(kind)).toBe(`${kind}/2026-03.yaml`);
    expect(target(kind, [`${kind}/2026-02.yaml`])).toBe(`${kind}/2026-03.yaml`);
    expect(target(kind, [`${kind}/2026-02.yaml`, `${kind}/2026-03.yaml`])).toBe(
      `${kind}/2026-03.yaml`,
    );
  });

  test.each(DEFINITION_KINDS)('keeps %s in one file', (kind) => {
    expect(target(kind)).toBe(`${kind}.yaml`);
  });
});

test.each(['aux', 'CON', 'nul', 'Prn', 'com1', 'LPT9'])(
  '%s names a file that is one everywhere',
  (id) => {
    for (const [kind, files] of [
      ['pieces', []],
      ['pieces', ['pieces/2025/a.yaml', 'pieces/2025/b.yaml']],
      ['mixed', []],
    ] as const)
      expect(targetFile({ kind, id, day }, files)).toMatch(new RegExp(`/${id}-record\\.yaml$`));
    expect(targetFile({ kind: 'pieces', id: `${id}-pot`, day }, [])).toBe(`pieces/${id}-pot.yaml`);
  },
);

describe("a person's own choice is kept", () => {
  test.each([
    ['sales', ['sales.yaml'], 'sales.yaml'],
    ['sales', ['sales.yml'], 'sales.yml'],
    ['pieces', ['pieces.yaml'], 'pieces.yaml'],
    ['sales', ['sales.yaml', 'sales/2026-02.yaml'], 'sales/2026-03.yaml'],
    ['sales', ['sales/2026.yaml'], 'sales/2026.yaml'],
    ['sales', ['sales/2026.yaml', 'sales/2026-03.yaml'], 'sales/2026-03.yaml'],
    ['sales', ['sales/2026/03.yaml', 'sales/2026/02.yaml'], 'sales/2026/03.yaml'],
    ['sales', ['sales/2026/2026-03.yml'], 'sales/2026/2026-03.yml'],
    ['sales', ['sales/fairs.yaml'], 'sales/2026-03.yaml'],
    ['materials', ['materials/all.yaml'], 'materials/all.yaml'],
    ['materials', ['materials/clay.yaml', 'materials.yaml'], 'materials.yaml'],
    ['materials', ['materials/clay.yaml', 'materials/dry.yaml'], 'materials.yaml'],
  ] as [Kind, string[], string][])('%s in %j: %s', (kind, files, file) => {
    expect(target(kind, files)).toBe(file);
  });
});

describe('where the other files of a kind lie', () => {
  test.each([
    ['mixed', ['mixed/2025/m1.yaml', 'mixed/2026/m2.yaml'], 'mixed/2026/x260308kt.yaml'],
    ['pieces', ['pieces/2025/11/p1.yaml'], 'pieces/2026/03/x260308kt.yaml'],
    ['pieces', ['pieces/2025-11/p1.yaml'], 'pieces/2026-03/x260308kt.yaml'],
    ['pieces', ['pieces/2025-11.yaml', 'pieces/2025-12.yaml'], 'pieces/2026-03.yaml'],
    [
      'firings',
      ['firings/2025/f1.yaml', 'firings/f2.yaml', 'firings/f3.yaml'],
      'firings/x260308kt.yaml',
    ],
    [
      'firings',
      ['firings/2025/f1.yaml', 'firings/2025/f2.yaml', 'firings/f3.yaml'],
      'firings/2026/x260308kt.yaml',
    ],
    ['firings', ['firings/big/f1.yaml'], 'firings/x260308kt.yaml'],
    ['sales', ['sales/2025/2025-12.yaml'], 'sales/2026/2026-03.yaml'],
    ['sales', ['sales/2025/11.yaml', 'sales/2025/12.yaml', 'sales/old.yaml'], 'sales/2026/03.yaml'],
    ['sales', ['sales/2024.yaml', 'sales/2025.yaml'], 'sales/2026.yaml'],
    ['sales', ['sales/2024/2024.yaml', 'sales/2025/2025.yaml'], 'sales/2026/2026.yaml'],
    ['sales', ['sales/2025/s251231kt.yaml'], 'sales/2026/x260308kt.yaml'],
    ['sales', ['sales/2025/fairs.yaml'], 'sales/2026-03.yaml'],
    ['fairs', ['fairs/2025-12.yaml'], 'fairs/2026-03.yaml'],
  ] as [Kind, string[], string][])('a new one of %s goes: %j', (kind, files, file) => {
    expect(target(kind, files)).toBe(file);
    expect(target(kind, files.toReversed())).toBe(file);
  });
});

describe('ids', () => {
  test('say kind and day', () => {
    expect(
      newId(
        { kind: 'sales', day },
        () => false,
        () => 0,
      ),
    ).toBe('s260308bb');
    expect(
      newId(
        { kind: 'firings', day },
        () => false,
        () => 0.999999,
      ),
    ).toBe('f260308zz');
  });

  test('have a letter of their own for each event kind', () => {
    expect(Object.keys(KIND_LETTERS).sort()).toEqual([...EVENT_KINDS].sort());
    expect(new Set(Object.values(KIND_LETTERS)).size).toBe(EVENT_KINDS.length);
  });

  test('are free, of the form that the schema asks for, and without look-alikes', () => {
    const random = fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true });
    holds(
      fc.property(fc.constantFrom(...EVENT_KINDS), random, fc.nat(40), (kind, number, used) => {
        const taken = new Set<string>();
        for (let i = 0; i < used; i++)
          taken.add(
            newId(
              { kind, day },
              (id) => taken.has(id),
              () => number,
            ),
          );
        const id = newId(
          { kind, day },
          (each) => taken.has(each),
          () => number,
        );
        expect(taken).toHaveLength(used);
        expect(taken).not.toContain(id);
        expect(id).toMatch(/^[a-z]260308[bcdfghjkmnprstwxz]{2,3}$/);
      }),
      50,
    );
  });

  test('get longer only when all pairs of the day are taken', () => {
    const taken = new Set<string>();
    for (let i = 0; i < 17 * 17; i++)
      taken.add(
        newId(
          { kind: 'sales', day },
          (id) => taken.has(id),
          () => 0.4,
        ),
      );
    expect([...taken].every((id) => id.length === 9)).toBe(true);
    expect(
      newId(
        { kind: 'sales', day },
        (id) => taken.has(id),
        () => 0,
      ),
    ).toBe('s260308bbb');
  });

  test('spread evenly, so that two branches seldom meet', () => {
    const ids = Array.from({ length: 289 }, (_, index) =>
      newId(
        { kind: 'sales', day },
        () => false,
        () => (index + 0.5) / 289,
      ),
    );
    expect(new Set(ids).size).toBe(289);
  });
});
