import { describe, expect, it } from 'vitest';
import { runCommand } from '../helpers/studio-commands.ts';

/** The lines between the rule under the heads and the one above the totals, and those of the totals. */
function tableLines(out: string): readonly string[] {
  const [, rows = '', totals = ''] = out.split(/^─+\n/m);
  return [...rows.trimEnd().split('\n'), ...(totals.split('\n\n')[0] ?? '').trimEnd().split('\n')];
}

/** How many lines each row takes: one of its own, and those that are indented below it. */
function heights(lines: readonly string[]): readonly number[] {
  const found: number[] = [];
  for (const line of lines)
    if (line.startsWith(' ')) found.push((found.pop() ?? 0) + 1);
    else found.push(1);
  return found;
}

describe.each([
  ['fairs', {}, 5],
  ['losses', { by: 'product' }, 25],
] as const)('%s on 80 columns', (name, options, rows) => {
  it('takes two lines a row at most, with every name whole', async () => {
    const { out } = await runCommand(name, options, { width: 80 });
    const lines = tableLines(out);
    expect(heights(lines)).toHaveLength(rows);
    expect(Math.max(...heights(lines))).toBe(2);
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(80);
    const { out: wide } = await runCommand(name, options, { width: 300 });
    const namesInWide = tableLines(wide).map((line) => / {2}([A-Z].*?) {2}/.exec(line)?.[1] ?? '');
    for (const called of namesInWide) expect(lines.join('\n')).toContain(called);
  });

  it('shows what adds up to the total that it shows', async () => {
    const lines = tableLines((await runCommand(name, options, { width: 80 })).out);
    const joined = lines
      .join('\n')
      .replaceAll(',', '')
      .split(/\n(?! )/);
    for (const row of joined) expect(addsUp[name](row), row).toBe(true);
  });
});

/** Whether the figures of a row, without commas, come to its total. */
const addsUp = {
  fairs: (row: string): boolean => {
    const [net = 0, fees = 0, cost = 0, spent = 0, broken = 0, profit = 0] = (
      row.split('\n')[0]?.match(/-?\d+\.\d\d(?!\d)/g) ?? []
    ).map((text) => Math.round(Number(text) * 100));
    return net - fees - cost - spent - broken === profit;
  },
  losses: (row: string): boolean => {
    const parts = [...row.matchAll(/(?:First|Second|Lost) (\d+)/g)].map(([, n]) => Number(n));
    const all = parts.reduce((sum, part) => sum + part, 0);
    return new RegExp(` ${all}(?: |\n)`).test(row.split('\n')[0]?.concat('\n') ?? '');
  },
};
