/** How many to start, through the command, against published values. */
import { describe, expect, it } from 'vitest';
import { atLeast, betaBinomial } from '../../src/number/beta-binomial.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const LOADS = Array.from({ length: 100 }, (_, at) => at);

/** The day of a load: all of them lie in the two years before the plan. */
function dayOf(at: number): string {
  const month = String((at % 12) + 1).padStart(2, '0');
  return `2025-${month}-${String((at % 28) + 1).padStart(2, '0')}`;
}

// A hundred loads of 200, of each of which a tenth is lost: so close to 10 % that only the binomial is left.
const FILES = {
  'studio.yaml': 'format: 1\nname: Lane End Pottery\ncurrency: USD\n',
  'products.yaml': 'pot: { name: Pot, fired: [once], space: 1 }\n',
  'kilns.yaml': 'kiln: { name: Kiln, fuel: wood, space: 400 }\n',
  'pieces.yaml': LOADS.map(
    (at) => `p${at}: { date: ${dayOf(at)}, product: pot, made: 200 }\n`,
  ).join(''),
  'firings.yaml': LOADS.map(
    (at) =>
      `f${at}:\n  date: ${dayOf(at)}\n  kiln: kiln\n  kind: once\n  load:\n    - { lot: p${at}, in: 200, first: 180, lost: 20 }\n`,
  ).join(''),
};

/** The pots that were made and are ready are sold, so that none is left for what is wanted. */
const SOLD = `s1:
  date: 2025-12-31
  channel: door
  lines:
    - { product: pot, count: 18000, price: 1.00 }
`;

interface Shown {
  readonly rows: readonly {
    readonly part: string;
    readonly count: number;
    readonly chance: string | null;
    readonly says: string;
  }[];
}

async function toStartFor(make: string, assurance: string): Promise<Shown['rows'][number]> {
  const folder = tempStudio({
    ...FILES,
    'channels.yaml': 'door: { name: Door, kind: direct }\n',
    'sales.yaml': SOLD,
  });
  const options = { make, assurance, asOf: '2026-01-02', as: 'json' };
  const { out, complaints } = await runCommand('plan', options, { folder });
  expect(complaints).toBe('');
  return (JSON.parse(out) as Shown).rows.find(({ part }) => part.startsWith('To start'))!;
}

// The binomial distribution; figures computed apart from this program with two libraries.
describe('plan --make', () => {
  it.each([
    ['80', 28],
    ['90', 29],
    ['95', 30],
    ['99', 31],
  ])(
    'for 24 good ones at a loss of a tenth, with an assurance of %s in 100: %d',
    async (assurance, start) => {
      const row = await toStartFor('24 pot', assurance);
      expect(row.count).toBe(start);
      expect(row.says).toMatch(
        /^24 wanted; of 10 that you make 9 come through; \d+ give 24 or more /,
      );
    },
  );

  it('says how sure it is: 29 are enough 936 times in a thousand', async () => {
    const { chance } = await toStartFor('24 pot', '90%');
    expect(Number(chance)).toBeCloseTo(0.9363, 3);
  });
});

// The posterior predictive distribution of any textbook (R: choose and lbeta), computed apart.
describe('the beta-binomial', () => {
  it('after 3 of 10 seen, with a flat prior: 3 of 10 to come .194604, none .055138', () => {
    const chances = betaBinomial(10, { good: 1 + 3, bad: 1 + 7 });
    expect(chances[3]).toBeCloseTo(0.194604, 6);
    expect(chances[0]).toBeCloseTo(0.055138, 6);
    expect(atLeast(chances, 1)).toBeCloseTo(1 - 0.055138, 6);
  });
});
