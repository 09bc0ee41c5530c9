import { describe, expect, it } from 'vitest';
import { HILL_STREET, dayIn } from '../helpers/hill-street.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

/** Files beside those of the small studio, or in place of them. */
type Causes = Readonly<Record<string, string>>;

const ENOUGH: Causes = {
  'bought.yaml': (HILL_STREET['bought.yaml'] ?? '').replace('35 kg', '3500 kg'),
};
const LATE: Causes = {
  'orders.yaml':
    'o1: { date: 2026-03-01, buyer: Corner cafe, due: 2026-03-09, lines: [{ product: mug, count: 5 }] }\no2: { date: 2026-03-01, buyer: Tea room, due: 2026-03-11, lines: [{ product: bowl, count: 2 }] }\n',
};
const AT_RISK: Causes = {
  'orders.yaml':
    'o3: { date: 2026-03-10, buyer: Inn, due: 2026-03-13, lines: [{ product: bowl, count: 40 }] }\n',
};
const FAILED: Causes = {
  'products.yaml': (HILL_STREET['products.yaml'] ?? '').replace(
    'mug: { name: Mug,',
    'mug: { name: Mug, care: [dishwasher],',
  ),
  'tests.yaml': 't1: { date: 2026-03-12, kind: dishwasher, lot: p1, verdict: no }\n',
};
const IN_KILN: Causes = {
  'firings.yaml': `${HILL_STREET['firings.yaml'] ?? ''}f3: { date: 2026-03-11, kiln: kiln, kind: bisque, energy: 40 kWh, load: [{ lot: p2, in: 8 }] }\n`,
};
const WORN: Causes = {
  'kilns.yaml':
    'kiln: { name: Kiln, fuel: electricity, space: 30, wear: [{ part: elements, cost: 200, firings: 2, fitted: 2026-03-01 }] }\n',
};
const FULL: Causes = {
  'pieces.yaml': `${HILL_STREET['pieces.yaml'] ?? ''}p4: { date: 2026-03-12, product: mug, made: 20 }\n`,
};
const WRONG: Causes = {
  'spent.yaml': 'e1: { date: 2026-03-12, to: A, for: booth }\n',
};

/** What the page leads with, on 12 March or another day. */
async function led(causes: readonly Causes[], asOf = '2026-03-12'): Promise<string> {
  const files = Object.assign({}, HILL_STREET, ...causes) as Record<string, string>;
  const { out } = await dayIn(tempStudio(files), asOf, { width: '120' });
  const [, , sentence = '', command = ''] = out.split('\n');
  return [sentence.replace(/^Next +/, ''), command.trim()].join(' | ');
}

describe('the one thing to do next', () => {
  // The most pressing first; each of them in a studio that has all that come after it too.
  const ranked: readonly (readonly [string, Causes, string])[] = [
    ['errors', WRONG, 'Fix 1 error: its record is left out of every figure. | saggar check'],
    [
      'a kiln that has cooled',
      IN_KILN,
      'Record what came out of Kiln: 8 pieces, since 2026-03-11. | saggar unload f3 --line "…"',
    ],
    [
      'a failed test of what is sold',
      FAILED,
      'Stop selling Mug for the dishwasher: a test of it failed. | saggar claims mug',
    ],
    [
      'the order that is late for longest',
      LATE,
      'Deliver 5 pieces to Corner cafe: 3 days late. | saggar orders o1',
    ],
    [
      'a material to order',
      {},
      'Order White clay today: 2 kg left, for less than a day. | saggar materials',
    ],
    [
      'a part that has lasted',
      { ...WORN, ...ENOUGH },
      'Have the elements of Kiln seen to: 2 of 2 firings. | saggar kilns kiln',
    ],
    [
      'a load that is full',
      { ...FULL, ...ENOUGH },
      'Fire Kiln: the bisque load is full, 16 left over. | saggar add firings --help',
    ],
  ];

  it.each(ranked.map(([name, , said], at) => ({ name, said, at })))(
    'is $name before all that can wait longer',
    async ({ at, said }) => {
      const causes = ranked.slice(at).map(([, cause]) => cause);
      // What is ordered is enough only for what comes after the clay that runs low.
      const isClayLow = at < 5 ? [{ 'bought.yaml': HILL_STREET['bought.yaml'] ?? '' }] : [];
      expect(await led([...causes.reverse(), ...isClayLow])).toBe(said);
    },
  );

  it('is an order that the plan has not in time, before its day', async () => {
    expect(await led([AT_RISK, ENOUGH])).toMatch(
      /^\d+ Bowl for Inn won't be ready by 2026-03-13\. \| saggar plan o3$/,
    );
  });

  it('is to remind who has owed for more than 60 days, of the largest sum', async () => {
    const owing = `
s8: { date: 2026-03-12, channel: shop, paid: no, lines: [{ for: repair, count: 1, price: 15 }] }
s9: { date: 2026-03-12, channel: door, paid: no, buyer: Mrs Wren, lines: [{ for: repair, count: 1, price: 40 }] }
`;
    const sales = { 'sales.yaml': owing };
    expect(await led([ENOUGH, sales], '2026-05-11')).not.toMatch(/Remind/);
    expect(await led([ENOUGH, sales], '2026-05-12')).toBe(
      'Remind Mrs Wren: 40.00 has been owed since 2026-03-12. | saggar show s9',
    );
  });

  it('is nothing where nothing asks for anything', async () => {
    expect(await led([ENOUGH])).toBe('Nothing more to do. | ');
  });
});
