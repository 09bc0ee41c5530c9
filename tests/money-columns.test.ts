/** Every column of money of every report says of which facts it is the sum. */
import { readFileSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '..');

interface Printed {
  readonly report: string;
  readonly columns: readonly { readonly key: string; readonly type: string }[];
  readonly rows: readonly Readonly<Record<string, string | null>>[];
  readonly currency: string;
}

function goldenTables(): Printed[] {
  const folder = join(ROOT, 'tests/golden');
  const names = readdirSync(folder).filter((name) => name.endsWith('.json'));
  const texts = names.map((name) => readFileSync(join(folder, name), 'utf8'));
  return texts.map((text) => {
    const printed = JSON.parse(text) as Printed & { readonly figures?: Partial<Printed> };
    // What is shown of a record has its table within.
    return { ...printed, ...printed.figures };
  });
}

function columnsOf({ columns }: Printed, types: readonly string[]): string[] {
  return columns.filter(({ type }) => types.includes(type)).map(({ key }) => key);
}

describe('columns of money', () => {
  const guide = readFileSync(join(ROOT, 'src/reckon/MONEY.md'), 'utf8');
  const rows = guide.split('\n').filter((line) => /^\| `[a-z]+` +\|/.test(line));
  const hasRow = (report: string, key: string): boolean =>
    rows.some((row) => row.startsWith(`| \`${report}\` `) && row.includes(`\`${key}\``));

  it('each have a row that says which facts they are the sum of', () => {
    const columns = goldenTables().flatMap((table) =>
      columnsOf(table, ['money', 'rate']).map((key) => [table.report, key] as const),
    );
    expect(columns.length).toBeGreaterThan(100);
    expect(columns.filter(([report, key]) => !hasRow(report, key))).toEqual([]);
    expect(hasRow('firings', 'unheard')).toBe(false);
  });

  it('made anywhere in the reports have such a row', () => {
    const reports = readdirSync(join(ROOT, 'src/report'), { recursive: true, encoding: 'utf8' });
    const made = reports
      .filter((file) => file.endsWith('.ts'))
      .flatMap((file) => {
        const text = readFileSync(join(ROOT, 'src/report', file), 'utf8');
        // Sums stand in for columns of a table, and are none of its own.
        const columns = text.matchAll(
          /(?<!column: \{ )key: '(\w+)',\s*title:[^}]*?type: '(?:money|rate)'/g,
        );
        return [...columns].map(([, key]) => key ?? '');
      });
    expect(made.length).toBeGreaterThan(60);
    expect(made.filter((key) => !rows.some((row) => row.includes(`\`${key}\``)))).toEqual([]);
  });

  it('hold whole minor units, always with all decimals', () => {
    const cells = goldenTables().flatMap((table) =>
      columnsOf(table, ['money']).flatMap((key) => table.rows.map((row) => row[key] ?? null)),
    );
    const amounts = cells.filter((cell) => cell !== null);
    expect(amounts.filter((cell) => !/^-?\d+\.\d\d$/.test(cell))).toEqual([]);
  });
});
