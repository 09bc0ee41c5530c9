/** Our check and a second validator on the published schemas come to the same verdict. */
import { describe, expect, test } from 'vitest';
import { textValidators } from '../../schema/generated/text.js';
import { KINDS } from '../../src/book.ts';
import { checkFile } from '../../src/check/schema.ts';
import { coreView, rawFile } from '../helpers/file-views.ts';
import { DOCUMENTS, fileOf } from './documents.ts';
import { secondAccepts } from './second-validator.ts';

describe.each([...KINDS, 'studio'] as const)('%s', (kind) => {
  const { base, good, bad } = DOCUMENTS[kind];

  test.each(['', ...good])('%s is sound', (change) => {
    const text = fileOf(kind, base, ...(change === '' ? [] : [change]));
    const file = rawFile(kind, text);
    const view = coreView(text);
    const { findings, sound } = checkFile({ ...file, odd: true }, () => view);
    expect(findings).toEqual([]);
    expect(sound).toBe(file.root);
    expect(secondAccepts(kind, text)).toBe(true);
    expect(file.odd).toBe(false);
    expect(textValidators[kind](kind === 'studio' ? file.root : file.root['x1'])).toBe(true);
  });

  test.each(bad)('%s is not sound', (change) => {
    const text = fileOf(kind, base, change);
    const view = coreView(text);
    const { findings, sound } = checkFile(rawFile(kind, text), () => view);
    const rules = new Set(findings.map(({ rule }) => rule));
    expect(rules.has('schema') || rules.has('needs-quotes')).toBe(true);
    expect(Object.keys(sound)).toEqual([]);
    expect(secondAccepts(kind, text)).toBe(false);
  });
});

test('there are ten good and ten bad documents of every kind', () => {
  for (const { good, bad } of Object.values(DOCUMENTS)) {
    expect(good.length).toBeGreaterThanOrEqual(10);
    expect(bad.length).toBeGreaterThanOrEqual(10);
  }
});
