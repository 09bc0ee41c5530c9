/** What `trace` takes, and what it says of the rest. */
import { describe, expect, it } from 'vitest';
import { runCommand } from '../helpers/studio-commands.ts';

async function traced(argument: string, options: Record<string, string | boolean> = {}) {
  return runCommand('trace', { as: 'text', ...options }, { argument });
}

async function titleOf(argument: string, options?: Record<string, string>): Promise<string> {
  return (await traced(argument, options)).out.split('\n')[0] ?? '';
}

describe('trace begins with', () => {
  it.each([
    ['cb3711', 'bag CB3711'],
    ['sf 26', 'mark SF 26'],
    ['b250103he', 'purchase b250103he'],
    ['m260312gw', 'mix m260312gw'],
    ['f260313ad', 'firing f260313ad'],
    ['p260218gx', 'lot p260218gx'],
    ['s260613fy', 'sale s260613fy'],
    ['c260225kn', 'consignment c260225kn'],
    ['r250127wj', 'reclaimed clay r250127wj'],
    ['linen', 'recipe linen'],
    ['t251121an', 'lot p250930td, by test t251121an'],
    ['t260328bt', 'firing f260326kf, by test t260328bt'],
  ])('%s', async (word, title) => {
    expect(await titleOf(word)).toBe(`What happened to ${title}`);
  });

  it("a recipe's version on a day", async () => {
    const title = await titleOf('linen', { versionOf: '2025-12-01' });
    expect(title).toBe('What happened to recipe linen as of 2025-10-06');
  });
});

describe('trace refuses', () => {
  it.each([
    ['big-kiln', {}, /^saggar: big-kiln is a kiln; trace takes/],
    ['CB3712', {}, /did you mean CB3711\?/],
    ['linen', { versionOf: '2024-01-01' }, /had no version yet on that day/],
    ['p260218gx', { versionOf: '2026-01-01' }, /--version-of is of a recipe/],
    ['linen', { versionOf: 'soon' }, /--version-of takes a day/],
  ])('%s %o', async (word, options, words) => {
    const { status, complaints } = await traced(word, options);
    expect(status).toBe(2);
    expect(complaints).toMatch(words);
  });
});

it('a sale that names no lot is never called a fact, and one that names it is', async () => {
  const rows = async (id: string) =>
    (
      JSON.parse((await traced(id, { as: 'json', only: 'sold' })).out) as {
        rows: { record: string; least: number; most: number }[];
      }
    ).rows.map(({ record, least, most }) => [record, least, most]);
  expect(await rows('s260613fy')).toEqual([['s260613fy', 1, 1]]);
  expect(await rows('s260612gb')).toEqual([
    ['s260612gb', 0, 2],
    ['s260612gb', 0, 2],
  ]);
});

describe('a long trace', () => {
  interface Line {
    part: string;
    kind: string;
    buyer: string | null;
    most: number | null;
  }

  async function linesOf(word: string): Promise<Line[]> {
    const { out } = await traced(word, { as: 'json' });
    return (JSON.parse(out) as { rows: Line[] }).rows;
  }

  it('begins with how many are where, and says the same as its lines', async () => {
    const { out } = await traced('CB3711', { as: 'markdown' });
    const lines = await linesOf('CB3711');
    const sold = lines.filter(({ part, kind }) => part === 'Sold' && kind === 'sold');
    const most = (some: Line[]) => some.reduce((all, each) => all + (each.most ?? 0), 0);
    const known = sold.filter(({ buyer }) => buyer !== null);
    const buyers = new Set(known.map(({ buyer }) => buyer)).size;
    expect(out).toContain(`| sold to ${buyers} buyers on record |  |  | 0 | ${most(known)} |`);
    const others = sold.filter(({ buyer }) => buyer === null);
    expect(out).toContain(`| sold to nobody on record |  |  | 0 | ${most(others)} |`);
  });

  it('is told by what is alike, and with --full line by line', async () => {
    const folded = (await traced('CB3711')).out.split('\n').length;
    const whole = (await traced('CB3711', { full: true })).out.split('\n').length;
    const lines = (await linesOf('CB3711')).length;
    expect(folded).toBeLessThan(155);
    expect(whole).toBeGreaterThan(lines);
  });

  it('has a box to tick for each of its lines on a page, and none for what they add up to', async () => {
    const { out } = await traced('CB3711', { as: 'html' });
    const boxes = out.split('class="tick"').length - 1;
    expect(boxes).toBe((await linesOf('CB3711')).length);
  });
});

describe('trace --fault', () => {
  it('holds loads against all others, and says how many were tried', async () => {
    const { status, out } = await traced('', { fault: 'crawled' });
    expect(status).toBe(0);
    expect(out).toMatch(/15 of \d+ that were tried; all of them: --full/);
    expect(out).not.toMatch(/\bcaused by\b/);
  });

  it.each([
    ['CB3711', { fault: 'crawled' }, /--fault looks at all loads/],
    ['', {}, /say what to trace/],
  ])('%s %o is refused', async (word, options, words) => {
    const { status, complaints } = await traced(word, options);
    expect(status).toBe(2);
    expect(complaints).toMatch(words);
  });
});
