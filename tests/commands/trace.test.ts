/** What `trace` takes, and what it says of the rest. */
import { describe, expect, it } from 'vitest';
import { runCommand } from '../helpers/studio-commands.ts';

async function traced(argument: string, options: Record<string, string> = {}) {
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
