import { beforeAll, describe, expect, it } from 'vitest';
import { renderText } from '../../src/render/terminal/text.ts';
import { flow } from '../../src/reckon/flow.ts';
import { fairTable, fairsTable } from '../../src/report/fairs.ts';
import { bookFrom } from '../helpers/book.ts';

const BOOK = bookFrom({
  materials: 'clay: { name: Clay, kind: clay, unit: kg }',
  bought:
    'b1: { date: 2026-01-01, supplier: Pit, lines: [{ material: clay, quantity: 20 kg, cost: 400 }] }',
  products: 'cup: { name: Cup, fired: [once], price: 20, clay: { material: clay, each: 1 kg } }',
  kilns: 'kiln: { name: Kiln, fuel: wood }',
  channels: 'green: { name: Green, kind: fair, fee-percent: 10% }',
  pieces: `
p1: { date: 2026-01-02, product: cup, made: 20, gone: [{ date: 2026-05-16, count: 2, how: broken, fair: k1 }] }
`,
  firings:
    'f1: { date: 2026-01-03, kiln: kiln, kind: once, load: [{ lot: p1, in: 20, first: 20 }] }',
  fairs: `
k1: { date: 2026-05-16, last: 2026-05-17, name: Green in May, channel: green, hours: 10 }
k2: { date: 2026-09-19, name: Green in September, channel: green }
`,
  sales: `
s1: { date: 2026-05-16, channel: green, discount: 10%, lines: [{ product: cup, count: 4, price: 1250 }] }
s2: { date: 2026-05-17, channel: green, lines: [{ product: cup, count: 1, price: 1100, returned: yes }] }
s3: { date: 2026-09-19, channel: green, lines: [{ product: cup, count: 2, price: 800 }] }
`,
  spent: `
e1: { date: 2026-01-10, to: Committee, for: booth, amount: 160, fair: k1 }
e2: { date: 2026-05-15, to: Garage, for: travel, amount: 112, fair: k1 }
e3: { date: 2026-05-16, to: Kiosk, for: meals, amount: 105, fair: k1 }
`,
});

const FLOWS = flow(BOOK, '2026-12-31');
const FAIRS = fairsTable(BOOK, FLOWS, { to: '2026-12-31' });

/** Every figure of a line by its head; where the rows are stacked, each line has a head of its own. */
type Shown = Readonly<Record<string, number>>;

const number = (text: string): number => Number(text.replaceAll(',', ''));

/** Figures end where their head ends. */
function gridRow(heads: string, line: string): Shown {
  const ends = [...heads.matchAll(/\S+/g)].map((head) => [head[0], head.index + head[0].length]);
  const figures = [...line.matchAll(/-?[\d,]+\.\d\d/g)];
  return Object.fromEntries(
    figures.map((figure) => {
      const end = figure.index + figure[0].length;
      return [ends.find((each) => each[1] === end)?.[0] ?? `at ${end}`, number(figure[0])];
    }),
  );
}

function shownIn(text: string): Shown[] {
  const lines = text.split('\n');
  const at = lines.findIndex((line) => line.includes('Profit'));
  const heads = lines[at] ?? '';
  if (!/\.\d\d/.test(heads)) return lines.slice(at).map((line) => gridRow(heads, line));
  return text.split('\n\n').map((block) => {
    const cells = [...block.matchAll(/^(\w[\w ]*?)\s{2,}(-?[\d,]+\.\d\d)$/gm)];
    return Object.fromEntries(cells.map(([, head = '', figure = '']) => [head, number(figure)]));
  });
}

const TAKES = ['Takings', 'Net'];
const APART = ['Profit', 'hour', 'Per hour', 'Hours'];

/** What the shown figures come to, less the profit that is shown; in whole cents. */
function offBy(row: Shown): number {
  const signed = Object.entries(row).filter(([head]) => !APART.includes(head));
  const sum = signed.reduce((all, [head, of]) => all + (TAKES.includes(head) ? of : -of), 0);
  return Math.round((sum - (row['Profit'] ?? NaN)) * 100);
}

const WIDTHS = [40, 60, 80, 120, 160];

describe.each(WIDTHS)('fairs on a line of %i columns', (width) => {
  const rows: Record<string, Shown[]> = {};
  const texts: Record<string, string> = {};
  beforeAll(async () => {
    const one = fairTable(BOOK, FLOWS, 'k1');
    const tables = { all: FAIRS, ...(one && { one }) };
    for (const [name, table] of Object.entries(tables)) {
      texts[name] = await renderText(table, { width, colour: false });
      rows[name] = shownIn(texts[name]).filter((row) => 'Profit' in row);
    }
  });

  // k1: 4 × 1,250.00 − 500.00 − 1,100.00 = 3,400.00 net; its fee is 10 % of what was charged;
  // less the cups, the booth, travel, meals and two broken cups of 20.00.
  it('shows what adds up to the profit, row by row and in the total', () => {
    expect(rows['all']).toHaveLength(3);
    expect(rows['all']?.map(offBy)).toEqual([0, 0, 0]);
  });

  it('shows the same profit however little room there is', () => {
    const exact = [...FAIRS.rows, FAIRS.totals ?? {}].map(({ profit }) => Number(profit) / 100);
    expect(rows['all']?.map(({ Profit }) => Profit)).toEqual(exact);
  });

  it('shows lines of one fair that add up to its profit', () => {
    const shown = rows['one'] ?? [];
    expect(shown).toHaveLength(6);
    expect(shown.map(offBy)).toEqual([0, 0, 0, 0, 0, 0]);
    const profits = shown.map(({ Profit = NaN }) => Math.round(Profit * 100));
    const [total] = profits.slice(-1);
    expect(profits.slice(0, -1).reduce((all, each) => all + each, 0)).toBe(total);
  });

  it('says how what it sums is summed', () => {
    const isSummed = rows['all']?.some((row) => 'Net' in row) ?? false;
    expect(texts['all']?.includes('Net is takings less discounts and returns.')).toBe(isSummed);
  });
});

describe('fairs for programs', () => {
  it('keep every column by itself, and no sum beside it', () => {
    const money = FAIRS.columns.filter(({ type }) => type === 'money').map(({ key }) => key);
    const costs = ['fees', 'cost', 'booth', 'travel', 'other', 'broken', 'profit'];
    expect(money).toEqual(['gross', 'discounts', 'returns', ...costs]);
  });
});
