/** Payments of estimated tax: said by `day` two weeks ahead, and in the summary until the day they are due. */
import { describe, expect, it } from 'vitest';
import { runCommand } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

/**
 * 10,000.00 in February and 30,000.00 in November. Tax on a profit p: p × .9235 × .124 and × .029.
 *  by 15 April    10,000 × 4 = 40,000: 4,580.56 + 1,071.26 = 5,651.82, × .225 = 1,271.66
 *  by 16 June     10,000 × 2.4 = 24,000: 2,748.34 + 642.76 = 3,391.10, × .45 = 1,526.00; less 1,271.66: 254.34
 *  by 15 September  15,000: 2,119.43 × .675 = 1,430.62, less than was asked already: nothing
 *  by 15 January  40,000: 5,651.82 × .9 = 5,086.64; less 1,526.00: 3,560.64
 */
const FILES = {
  'studio.yaml': 'format: 1\nname: Hill\ncurrency: USD\n',
  'channels.yaml': 'door: { name: Door, kind: direct, tax-place: Town }\n',
  'sales.yaml': `
s1: { date: 2025-02-01, channel: door, lines: [{ for: work, count: 1, price: 10000 }] }
s2: { date: 2025-11-01, channel: door, lines: [{ for: work, count: 1, price: 30000 }] }
s3: { date: 2026-01-03, channel: door, lines: [{ for: work, count: 1, price: 50 }] }
`,
};

async function saidOn(asOf: string): Promise<string[]> {
  const folder = tempStudio(FILES);
  const { out } = await runCommand('day', { asOf }, { folder, width: 120 });
  return [...out.matchAll(/[\d,.]+ due \d{4}-\d\d-\d\d, for \S+ to [\d-]+/g)].map(
    ([words]) => words,
  );
}

describe('day', () => {
  it.each([
    ['2025-04-01', '1,271.66 due 2025-04-15, for 2025-01-01 to 2025-03-31'],
    ['2025-04-15', '1,271.66 due 2025-04-15, for 2025-01-01 to 2025-03-31'],
    ['2025-06-02', '254.34 due 2025-06-16, for 2025-01-01 to 2025-05-31'],
    ['2026-01-01', '3,560.64 due 2026-01-15, for 2025-01-01 to 2025-12-31'],
    ['2026-01-15', '3,560.64 due 2026-01-15, for 2025-01-01 to 2025-12-31'],
  ])('says on %s what is due in two weeks or less', async (asOf, words) => {
    expect(await saidOn(asOf)).toEqual([words]);
  });

  it.each(['2025-03-31', '2025-04-16', '2025-06-01', '2025-09-10', '2025-12-31', '2026-01-16'])(
    'says nothing on %s: nothing is due, or nothing is to be paid',
    async (asOf) => {
      expect(await saidOn(asOf)).toEqual([]);
    },
  );
});

describe('the summary of the quarter that the day is in', () => {
  /** Payments that it shows, each with its part. */
  async function shownOn(asOf: string): Promise<string[]> {
    const folder = tempStudio(FILES);
    const { out } = await runCommand('quarter', { asOf, as: 'json' }, { folder });
    const { rows } = JSON.parse(out) as { rows: { part: string; item: string; amount: string }[] };
    return rows
      .filter(({ item }) => /^estimate\.\d\.payment$/.test(item))
      .map(({ part, amount }) => `${part}: ${amount}`);
  }

  it('has a payment until it is due, though it is for the quarter before', async () => {
    const april = 'Estimated tax on 2025-01-01 to 2025-03-31, due 2025-04-15: 1271.66';
    expect([await shownOn('2025-04-10'), await shownOn('2025-04-15')]).toEqual([[april], [april]]);
    expect(await shownOn('2025-04-16')).toEqual([]);
  });

  it('has the payment of January, which is for the year before', async () => {
    const january = 'Estimated tax on 2025-01-01 to 2025-12-31, due 2026-01-15: 3560.64';
    expect(await shownOn('2026-01-10')).toEqual([january]);
    expect(await shownOn('2026-01-16')).toEqual([]);
  });
});
