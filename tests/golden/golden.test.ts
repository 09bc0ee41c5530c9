import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/commands/catalogue.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { exampleCopy } from '../helpers/temp-studio.ts';

interface Golden {
  readonly name: string;
  readonly command: string;
  readonly argument?: string;
  /** Words after the argument. */
  readonly more?: readonly string[];
  readonly options?: Record<string, string | boolean>;
  readonly inCopy?: boolean;
  /** Those that are kept; text, JSON, CSV and Markdown where it isn't said. */
  readonly formats?: readonly (keyof typeof ENDINGS)[];
}

const ENDINGS = { text: 'txt', json: 'json', csv: 'csv', markdown: 'md', html: 'html' } as const;

/**
 * Every report of the example studio that is kept; the files are read before they are committed, so none
 * is long. Two pages stand for all: tests of what pages say, and those in a browser, look at the others.
 */
const REPORTS: readonly Golden[] = [
  { name: 'check', command: 'check' },
  // In a copy, for the page says what git has not committed, and that changes.
  { name: 'day', command: 'day', inCopy: true },
  { name: 'day-long', command: 'day', options: { long: true, asOf: '2026-05-20' }, inCopy: true },
  { name: 'materials', command: 'materials' },
  { name: 'materials-history', command: 'materials', argument: 'kaolin' },
  { name: 'materials-bucket', command: 'materials', argument: 'river-blue' },
  { name: 'materials-where', command: 'materials', options: { where: true, year: '2025' } },
  { name: 'firings', command: 'firings' },
  { name: 'firing-load', command: 'firings', argument: 'f260216py', formats: ['text', 'json', 'csv', 'markdown', 'html'] },
  { name: 'losses', command: 'losses' },
  { name: 'losses-product', command: 'losses', options: { by: 'product' } },
  { name: 'losses-cause', command: 'losses', options: { by: 'cause' } },
  { name: 'losses-month', command: 'losses', options: { by: 'month' } },
  { name: 'losses-chart', command: 'losses', options: { chart: true } },
  { name: 'losses-chart-kiln', command: 'losses', options: { chart: true, by: 'kiln' }, formats: ['text', 'json'] },
  { name: 'income', command: 'income', options: { year: '2025' } },
  { name: 'income-channel', command: 'income', options: { year: '2025', by: 'channel' } },
  { name: 'income-month', command: 'income', options: { year: '2025', by: 'month' } },
  { name: 'income-class', command: 'income', options: { year: '2025', by: 'class' } },
  { name: 'income-days', command: 'income', options: { from: '2026-06-28' }, formats: ['html'] },
  { name: 'income-buyer', command: 'income', options: { year: '2026', by: 'buyer' } },
  { name: 'costs', command: 'costs' },
  { name: 'costs-estimated', command: 'costs', options: { from: '2026-06-10', overheadBy: 'labour' } },
  { name: 'costs-product', command: 'costs', argument: 'mug' },
  { name: 'galleries', command: 'galleries' },
  { name: 'gallery', command: 'galleries', argument: 'gallery' },
  { name: 'gallery-history', command: 'galleries', argument: 'gallery', options: { history: true } },
  { name: 'weigh', command: 'weigh', argument: 'sea-green', more: ['5', 'kg'] },
  {
    name: 'weigh-slop',
    command: 'weigh',
    argument: 'sea-green',
    more: ['12 L'],
    options: { gravity: '1.45' },
  },
  {
    name: 'weigh-blend',
    command: 'weigh',
    argument: 'sea-green',
    more: ['200 g'],
    options: { blend: 'linen' },
  },
  { name: 'recipes', command: 'recipes' },
  { name: 'recipe', command: 'recipes', argument: 'linen' },
  { name: 'kilns', command: 'kilns' },
  { name: 'kiln', command: 'kilns', argument: 'big-kiln', options: { from: '2025-10-01', to: '2026-03-31' } },
  { name: 'orders', command: 'orders' },
  { name: 'orders-all', command: 'orders', options: { all: true } },
  { name: 'plan', command: 'plan' },
  { name: 'plan-make', command: 'plan', options: { make: '24 mug rust', until: '2026-09-14' } },
  { name: 'order', command: 'orders', argument: 'o260512hl' },
  { name: 'fairs', command: 'fairs' },
  { name: 'fair', command: 'fairs', argument: 'k251206hd' },
  { name: 'fair-bring', command: 'fairs', options: { bring: true } },
  // In a copy, for git would tell what has changed in the closed period.
  { name: 'quarter', command: 'quarter', inCopy: true },
  {
    name: 'quarter-year',
    command: 'quarter',
    argument: '2025',
    options: { basis: 'accrual', taxRate: '22' },
    inCopy: true,
    // Its figures are those of the quarters; the other formats of a sheet are kept of one quarter.
    formats: ['text', 'markdown'],
  },
  { name: 'pieces', command: 'pieces' },
  { name: 'pieces-place', command: 'pieces', options: { by: 'place' } },
  { name: 'trace-lot', command: 'trace', argument: 'p260218gx', formats: ['text', 'json', 'csv', 'markdown', 'html'] },
  { name: 'trace-folded', command: 'trace', argument: 'CB3711', formats: ['text'] },
  { name: 'trace-mix', command: 'trace', argument: 'm260312gw', formats: ['text'] },
  { name: 'trace-bag', command: 'trace', argument: 'CB3281', options: { only: 'galleries' } },
  { name: 'claims', command: 'claims' },
  { name: 'tests', command: 'tests' },
  { name: 'clays', command: 'clays' },
  { name: 'trace-fault', command: 'trace', options: { fault: 'crawled' } },
  { name: 'claims-mug', command: 'claims', argument: 'mug', formats: ['text'] },
  { name: 'show', command: 'show', argument: 's260613fy', formats: ['text', 'json'] },
];

const ALL = ['text', 'json', 'csv', 'markdown'] as const;

const CASES = REPORTS.flatMap((report) =>
  (report.formats ?? ALL).map((as) => ({
    ...report,
    as,
    file: `${report.name}.${ENDINGS[as]}`,
  })),
);

describe('reports of the example studio', () => {
  it.each(CASES)('$file', async ({ command, argument, more, options, as, file, inCopy }) => {
    const { status, out, complaints } = await runCommand(
      command,
      { ...options, as },
      {
        ...(argument === undefined ? {} : { argument, ...(more ? { more } : {}) }),
        ...(inCopy === true ? { folder: exampleCopy() } : {}),
      },
    );
    expect({ status, complaints }).toEqual({ status: 0, complaints: '' });
    await expect(out).toMatchFileSnapshot(file);
  });

  it('no report is without one', () => {
    // The day's page tells what git has not committed; its own tests have studios with and without git.
    // Two states of a book make a review; tests/review/golden has them.
    // What a list is matched with is in tests/commands/match.test.ts.
    const others = ['day', 'review', 'init', 'match'];
    const kept = new Set([...REPORTS.map(({ command }) => command), ...others]);
    // What commands that write answer, init among them, is in the tests of those.
    const has = (flag: string) => (command: (typeof COMMANDS)[number]) =>
      command.options.some(({ flags }) => flags.split(' ')[0] === flag);
    const reports = COMMANDS.filter(has('--as')).filter((each) => !has('--dry-run')(each));
    expect(reports.map(({ name }) => name).filter((name) => !kept.has(name))).toEqual([]);
  });
});
