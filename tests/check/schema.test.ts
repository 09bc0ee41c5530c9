import { describe, expect, test } from 'vitest';
import { checkFile } from '../../src/check/schema.ts';
import type { Spot } from '../../src/problem.ts';
import { coreView, rawFile } from '../helpers/file-views.ts';
import { DOCUMENTS, fileOf } from '../schema/documents.ts';
import { check } from './faults/said.ts';

describe('what is checked, and what is left', () => {
  const good = 'u1: { date: 2026-03-08, material: a, quantity: 1 kg }\n';
  const bad = 'u2: { date: 2026-02-30, material: a, quantity: 1 kg }\n';

  test('a sound file is not read again', () => {
    const file = rawFile('used', good);
    const { findings, sound } = checkFile(file, () => {
      throw new Error('read again');
    });
    expect(findings).toEqual([]);
    expect(sound).toBe(file.root);
  });

  test('a file with a fault is read again once, and its sound records are kept', () => {
    const asked: string[] = [];
    const { findings, sound } = checkFile(rawFile('used', good + bad, 'used/03.yaml'), (file) => {
      asked.push(file);
      return coreView(good + bad);
    });
    expect(asked).toEqual(['used/03.yaml']);
    expect(Object.keys(sound)).toEqual(['u1']);
    expect(findings).toMatchObject([{ at: { file: 'used/03.yaml', path: ['u2', 'date'] } }]);
  });

  test('several faults of a record are each said, in one go', () => {
    const text = 'u2: { date: 2026-02-30, matrial: a, quantity: 1 kilo, note: 04 }\n';
    expect(check('used', text).map(({ rule, at }) => [rule, (at as Spot).path.at(-1)])).toEqual([
      ['schema', 'matrial'],
      ['schema', 'date'],
      ['schema', 'quantity'],
      ['needs-quotes', 'note'],
    ]);
  });

  test('settings with a fault are not sound at all', () => {
    const text = 'format: 1\nname: x\ncurrency: USD\nlead-days: week\n';
    const { findings, sound } = checkFile(rawFile('studio', text), () => coreView(text));
    expect(findings).toMatchObject([{ at: { path: ['lead-days'] } }]);
    expect(Object.keys(sound)).toEqual([]);
  });

  test('a file that can no longer be read is checked by its texts', () => {
    const { findings, sound } = checkFile(rawFile('used', good + bad), () => undefined);
    expect(findings).toMatchObject([{ rule: 'schema', at: { path: ['u2', 'date'] } }]);
    expect(Object.keys(sound)).toEqual(['u1']);
  });

  test('a long or strange value is shortened in the message', () => {
    const [finding] = check(
      'used',
      fileOf('used', DOCUMENTS.used.base, `date: ${'9'.repeat(90)}x`),
    );
    expect(finding?.message).toBe(
      `date is "${'9'.repeat(40)}…", which is not a day of the calendar`,
    );
  });

  test('an id may be a word that objects know', () => {
    const text = good.replace('u1', 'constructor');
    const { findings, sound } = checkFile({ ...rawFile('used', text), odd: true }, () =>
      coreView(text),
    );
    expect(findings).toEqual([]);
    expect(Object.keys(sound)).toEqual(['constructor']);
  });
});
