import { describe, expect, it } from 'vitest';
import { runCommand } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

// 60 was filed for the first quarter; the book has 100 − 45.
const FILES = {
  'studio.yaml': 'format: 1\nname: Hill\ncurrency: EUR\ntax-sheet: plain\n',
  'channels.yaml': 'door: { name: Door, kind: direct, tax-place: none }\n',
  'sales.yaml':
    's1: { date: 2026-02-05, channel: door, lines: [{ for: work, count: 1, price: 100 }] }\n',
  'spent.yaml': 'e1: { date: 2026-01-02, to: Landlord, for: rent-place, amount: 45 }\n',
  'filed.yaml': "d1: { date: 2026-04-12, period: 2026-Q1, sheet: plain, lines: { '20': 60 } }\n",
};

const ERRORS = [
  ['a test', 'tests.yaml', 't1: { date: 2026-02-01, kind: tile, colour: red }'],
  ['a later expense', 'spent/b.yaml', 'e9: { date: 2026-04-02, to: X, for: bank }'],
  ['a later one paid then', 'spent/b.yaml', 'e9: { date: 2026-04-02, paid: 2026-03-02, to: X }'],
  ['an expense of then', 'spent/b.yaml', 'e9: { date: 2026-03-31, to: X, for: bank }'],
  ['an expense of no day', 'spent/b.yaml', 'e9: { date: 2026-04-31, to: X, for: bank, amount: 3 }'],
  ['a material', 'materials.yaml', 'clay: { name: Clay }'],
  ['a file that is no YAML', 'spent/b.yaml', 'e9: { date: 2026-04-02'],
] as const;

/** Of these nothing in the quarter can have moved. */
const SAID = ['a test', 'a later expense'];

describe('what differs from a filing', () => {
  it.each(ERRORS)('is said or not while %s has an error', async (what, file, text) => {
    const folder = tempStudio({ ...FILES, [file]: `${text}\n` });
    const { out } = await runCommand('check', { asOf: '2026-06-30' }, { folder });
    expect(out).toMatch(/: error: /);
    expect(out.includes('[filed-differs]')).toBe(SAID.includes(what));
  });

  it('is said where nothing is wrong', async () => {
    const { out } = await runCommand(
      'check',
      { asOf: '2026-06-30' },
      { folder: tempStudio(FILES) },
    );
    expect(out).toContain('60.00 was filed, 55.00 is what the book has now');
  });
});
