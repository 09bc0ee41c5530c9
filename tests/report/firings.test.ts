import { describe, expect, it } from 'vitest';
import { total } from '../../src/number/money.ts';
import { money, told } from '../helpers/minor.ts';
import { EXAMPLE_DAY, runCommand } from '../helpers/studio-commands.ts';

type Row = Readonly<Record<string, string>>;

/** The rows of the example studio's firings, from the file for programs. */
async function rowsOf(options: Readonly<Record<string, string>> = {}): Promise<Row[]> {
  const { out } = await runCommand('firings', { asOf: EXAMPLE_DAY, as: 'csv', ...options });
  const [head = [], ...rows] = out
    .trim()
    .split('\r\n')
    .map((line) => line.split(','));
  return rows.map((cells) => Object.fromEntries(head.map((key, at) => [key, cells[at] ?? ''])));
}

const PARTS = ['energyCost', 'wearCost', 'suppliesCost', 'labourCost'] as const;

function partsOf(row: Row): string[] {
  return PARTS.map((key) => row[key] ?? '').filter((cell) => cell !== '');
}

describe('what a firing costs', () => {
  it('is the same whatever span is asked for, and in its own report', async () => {
    const spans = [
      {},
      { from: '2026-05-01' },
      { from: '2026-05-19', to: '2026-05-19' },
      { to: '2026-05-31' },
    ];
    const rows = await Promise.all(spans.map((span) => rowsOf(span)));
    const found = rows.map((each) => each.find(({ firing }) => firing === 'f260519jd'));
    expect(found.map((row) => row?.['energyCost'])).toEqual(['8.40', '8.40', '8.40', '8.40']);
    expect(found).toEqual(found.map(() => found[0]));
    const shown = await runCommand('firings', { asOf: EXAMPLE_DAY });
    expect(shown.out.split('\n').find((line) => line.startsWith('f260519jd'))).toContain(' 8.40 ');
  });

  it('adds up across in every row, to the cent', async () => {
    const rows = await rowsOf();
    expect(rows.length).toBeGreaterThan(70);
    const across = rows.map((row) => `${row['firing']} ${told(total(partsOf(row).map(money)))}`);
    expect(across).toEqual(rows.map((row) => `${row['firing']} ${row['total']}`));
  });

  it('adds up down to the total, in any format', async () => {
    const rows = await rowsOf();
    const { out } = await runCommand('firings', { asOf: EXAMPLE_DAY, as: 'json' });
    const { totals } = JSON.parse(out) as { totals: Row };
    for (const key of [...PARTS, 'total']) {
      const cells = rows.map((row) => row[key] ?? '').filter((cell) => cell !== '');
      expect(`${key} ${told(total(cells.map(money)))}`).toBe(`${key} ${totals[key] ?? ''}`);
    }
  });
});
