/** Random studios are what property tests take them for: rich, repeatable, and sound unless they are to break rules. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseDocument } from 'yaml';
import { KINDS } from '../../src/book.ts';
import { DOUBTS } from '../../src/check/rules.ts';
import type { Finding } from '../../src/problem.ts';
import { checkFiles } from './check-files.ts';
import { rawFile } from './file-views.ts';
import {
  FEATURES,
  growStudio,
  layouts,
  randomStudio,
  studioPlan,
  type RandomStudio,
  type StudioPlan,
} from './random-studio.ts';
import { withStudio, writeStudio } from './write-studio.ts';
import { holds } from './law.ts';

const RICH: StudioPlan = {
  seed: 7,
  days: 200,
  products: 8,
  pace: 4,
  features: FEATURES,
  breaks: [],
};

type Files = RandomStudio['files'];

/** Kind → id → record, as the files have them; the settings under `studio`. */
function recordsIn(files: Files): Record<string, Record<string, unknown>> {
  const found: Record<string, Record<string, unknown>> = { studio: {} };
  for (const kind of KINDS) found[kind] = {};
  for (const [path, text] of Object.entries(files)) {
    const kind = path.replace(/(?:\/.*|\.yaml)$/, '') as (typeof KINDS)[number];
    Object.assign(found[kind] ?? {}, rawFile(kind, text).root);
  }
  return found;
}

/** What check finds but for doubts: figures at random are far from any usual one. */
const undoubted = (files: Files, asOf: RandomStudio['asOf']): Finding[] =>
  checkFiles(files, asOf).findings.filter(({ rule }) => !DOUBTS.has(rule));

const rulesIn = (studio: RandomStudio): string[] =>
  undoubted(studio.files, studio.asOf).map(({ rule, message }) => `${rule}: ${message}`);

describe('a random studio', () => {
  it('keeps every rule unless it is to break some', () => {
    holds(
      fc.property(studioPlan(), (plan) => {
        expect(rulesIn(growStudio(plan))).toEqual([]);
      }),
      8,
    );
  });

  it('keeps every rule with all features at once', () => {
    expect(rulesIn(growStudio(RICH))).toEqual([]);
  });

  it.each([
    ['stock', 'stock-below-zero'],
    ['lots', 'lot-overdrawn'],
    ['out-of-turn', 'fired-out-of-turn'],
    ['gone', 'sold-more-than-finished'],
    ['sold', 'sold-more-than-finished'],
    ['consigned', 'consigned-overdrawn'],
  ] as const)('that is to break the rule of %s draws the problem %s', (broken, rule) => {
    const found = rulesIn(growStudio({ ...RICH, breaks: [broken] }));
    expect(found.map((words) => words.split(':')[0])).toContain(rule);
  });

  it('is the same for the same plan', () => {
    expect(growStudio(RICH)).toEqual(growStudio({ ...RICH }));
    expect(growStudio({ ...RICH, seed: 8 }).files).not.toEqual(growStudio(RICH).files);
  });

  it('has the records in its files that it says it has', () => {
    holds(
      fc.property(
        randomStudio({ days: 90, features: ['notes'] }),
        ({ files, records, settings }) => {
          expect(recordsIn(files)).toEqual({ ...records, studio: settings });
        },
      ),
      3,
    );
  });

  it('has no date after its last day', () => {
    const { files, asOf } = growStudio(RICH);
    const dates = Object.values(files).flatMap((text) => text.match(/\b20\d\d-\d\d-\d\d\b/g) ?? []);
    expect(dates.reduce((late, date) => (date > late ? date : late))).toBe(asOf);
  });

  it('has every kind of record, and every field that matters to a figure', () => {
    const { records, files } = growStudio(RICH);
    for (const kind of KINDS) expect(Object.keys(records[kind]).length, kind).toBeGreaterThan(0);
    const text = Object.values(files).join('');
    const fields = [
      'freight',
      'discount',
      'tax',
      'share-freight-by',
      'base-weight',
      'total-weight',
      'tops-up',
      'yields',
      'additions',
      'lost',
      'gone',
      'second',
      'why',
      'refire',
      'space',
      'outside',
      'class',
      'meter',
      'energy',
      'fuel-used',
      'supplies',
      'tended',
      'returned',
      'fee',
      'commission',
      'shipping',
      'sent',
      'back',
      'missing',
      'packing',
      'bands',
      'heat-content',
      'advances',
      'for-order',
      'refunded',
      'fair',
      'meets',
    ];
    const absent = fields.filter((field) => !new RegExp(`^ +(?:- )?${field}:`, 'm').test(text));
    expect(absent).toEqual([]);
    expect(text).toMatch(/quantity: \d x \d+ (?:kg|lb|g|oz)/);
    const loads = Object.values(records.firings).flatMap(({ load }) => load as { lost?: string }[]);
    const waiting = loads.filter(
      (line) => !('first' in line || 'second' in line || 'lost' in line),
    );
    expect(waiting.length).toBeGreaterThan(0);
  });

  it('with fewer days is the beginning of the one with more', () => {
    const [long, short] = [growStudio(RICH), growStudio({ ...RICH, days: 120 })];
    expect(short.records.sales).not.toEqual({});
    // What is missing may be paid for after the shorter one's last day.
    const unpaid = (records: object): object =>
      JSON.parse(
        JSON.stringify(records, (key, value: unknown) => (key === 'paid' ? undefined : value)),
      ) as object;
    for (const kind of ['bought', 'mixed', 'firings', 'consigned', 'counted'] as const)
      expect(unpaid(long.records[kind])).toMatchObject(unpaid(short.records[kind]));
  });

  it('shrinks to a plain studio', () => {
    const details = fc.check(
      fc.property(studioPlan(), (plan) => Object.keys(growStudio(plan).records.firings).length < 2),
      { numRuns: 50, seed: 3 },
    );
    const [plan] = details.counterexample ?? [];
    expect(details.failed).toBe(true);
    expect(plan?.features.length).toBeLessThan(8);
    expect(plan?.days).toBeLessThan(60);
  });
});

describe('another layout', () => {
  it('has the same records in other files, and is as sound', () => {
    holds(
      fc.property(randomStudio({ days: 60, features: ['notes'] }), fc.nat(), (studio, seed) => {
        const other = layouts(studio.files, seed);
        for (const [path, text] of Object.entries(other))
          expect(parseDocument(text).errors, `${path}\n${text}`).toEqual([]);
        expect(recordsIn(other)).toEqual(recordsIn(studio.files));
        expect(undoubted(other, studio.asOf)).toEqual([]);
      }),
      5,
    );
  });

  it('is the same for the same seed, and differs in files, order and style', () => {
    const { files } = growStudio({ ...RICH, days: 80 });
    expect(layouts(files, 5)).toEqual(layouts(files, 5));
    const many = Array.from({ length: 30 }, (_, seed) => layouts(files, seed));
    const texts = many.flatMap((layout) => Object.values(layout));
    const paths = many.flatMap((layout) => Object.keys(layout));
    expect(paths).toContain('sales.yaml');
    expect(paths.some((path) => /^sales\/\d{4}\/\d\d\/all\.yaml$/.test(path))).toBe(true);
    expect(paths.some((path) => /^sales\/s\w+\.yaml$/.test(path))).toBe(true);
    expect(texts.some((text) => text.startsWith('\uFEFF'))).toBe(true);
    expect(texts.some((text) => text.includes('\r\n'))).toBe(true);
    expect(texts.some((text) => /^\w+: \{ .*\}$/m.test(text))).toBe(true);
    expect(texts.some((text) => /^ {2}lines:\n {2}- /m.test(text))).toBe(true);
    expect(texts.some((text) => /: '\w/.test(text))).toBe(true);
    expect(texts.some((text) => text.includes(' # '))).toBe(true);
  });
});

describe('a studio on disk', () => {
  it('has the files as given until it is removed', () => {
    const { folder, remove } = writeStudio({
      'studio.yaml': 'format: 1\n',
      'sales/2026/a.yaml': 'é',
    });
    expect(readFileSync(join(folder, 'sales', '2026', 'a.yaml'), 'utf8')).toBe('é');
    expect(readFileSync(join(folder, 'studio.yaml'), 'utf8')).toBe('format: 1\n');
    remove();
    expect(existsSync(folder)).toBe(false);
  });

  it('is removed when its use fails', async () => {
    let seen = '';
    const failing = withStudio({ 'studio.yaml': '' }, (folder) => {
      seen = folder;
      expect(existsSync(join(folder, 'studio.yaml'))).toBe(true);
      throw new Error('no');
    });
    await expect(failing).rejects.toThrow('no');
    expect(existsSync(seen)).toBe(false);
  });
});
