/** Years of invented studios as finished forms; each figure is worked by hand in the comment beside it. */
import { describe, expect, it } from 'vitest';
import { renderPage } from '../../src/render/html/page.ts';
import { bareTable } from '../../src/report/page.ts';
import { renderText } from '../../src/render/terminal/text.ts';
import type { Table } from '../../src/report/table.ts';
import { bookFrom, type Files } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';
import { summaryOf, type Wanted } from '../helpers/quarter.ts';

/** A form as it is filled in: each line's number with its amount, or with its words where it has none. */
function formOf(files: Files, wanted: Wanted, ...parts: readonly string[]): string[] {
  const table = summaryOf(bookFrom(files), wanted);
  return table.rows
    .filter(({ part }) => parts.some((each) => String(part).startsWith(each)))
    .map(
      ({ sheetLine, amount, name }) =>
        `${String(sheetLine ?? '')} ${typeof amount === 'bigint' ? told(amount, table.minorDigits) : String(name)}`,
    );
}

/** The lines of a form that are neither zero nor words. */
function filledLines(lines: readonly string[]): string[] {
  return lines.filter((line) => /\d\.\d\d$/.test(line) && !line.endsWith(' 0.00'));
}

const BASE = {
  materials: 'clay: { name: Clay, kind: clay, unit: kg }',
  products: 'mug: { name: Mug, clay: { material: clay, each: 1 kg }, fired: [once] }',
  kilns: 'kiln: { name: Kiln, fuel: electricity }',
  channels: 'door: { name: Door, kind: direct }',
};

/**
 * First studio: mugs at the door, the accrual basis. 100 kg of clay for 200.00; 60 mugs of 1 kg; 50 sold
 * at 30.00, one comes back at 30.00. Stock at the end: 40 kg = 80.00 and 11 mugs = 22.00. Expenses: rent
 * 600, advertising 40, bank 12, post 28, car 50 for 100 miles.
 *  1  50 × 30.00 = 1,500.00; 2  30.00; 3  1,470.00; 36  200.00; 41  80.00 + 22.00 = 102.00
 *  42 and 4  200.00 - 102.00 = 98.00; 5 and 7  1,470.00 - 98.00 = 1,372.00
 *  8  40.00; 9  50.00; 20b  600.00; 27b and 48  12.00 + 28.00 = 40.00; 28  730.00
 *  29 and 31  1,372.00 - 730.00 = 642.00
 * Schedule SE: 4a  642.00 × .9235 = 592.887 → 592.89; 10  592.89 × .124 = 73.518 → 73.52
 *  11  592.89 × .029 = 17.194 → 17.19; 12  90.71; 13  45.355 → 45.36
 */
const MUGS: Files = {
  ...BASE,
  studio: 'format: 1\nname: First\ncurrency: USD\nbasis: accrual\n',
  bought:
    'b1: { date: 2025-01-10, supplier: Pit, lines: [{ material: clay, quantity: 100 kg, cost: 200 }] }',
  pieces: 'p1: { date: 2025-02-01, product: mug, made: 60 }',
  firings:
    'f1: { date: 2025-02-10, kiln: kiln, kind: once, energy: 10 kWh, load: [{ lot: p1, in: 60, first: 60 }] }',
  sales: `
s1: { date: 2025-03-01, channel: door, lines: [{ product: mug, count: 50, price: 30 }] }
s2: { date: 2025-03-09, channel: door, lines: [{ product: mug, count: 1, price: 30, returned: yes }] }
`,
  spent: `
e1: { date: 2025-02-01, to: Landlord, for: rent-place, amount: 600 }
e2: { date: 2025-03-01, to: Paper, for: advertising, amount: 40 }
e3: { date: 2025-04-01, to: Bank, for: bank, amount: 12 }
e4: { date: 2025-05-01, to: Post, for: freight-out, amount: 28 }
e5: { date: 2025-06-01, to: Garage, for: car, amount: 50, distance: 100 mi }
`,
};

/**
 * Second studio: classes, firing for others and a gallery, on the cash basis; no materials, so no stock.
 * Four places at 120.00 = 480.00; firing 75.00; a gallery sells a bought-in talk for 100.00 and keeps 40 %.
 * A wheel for 1,250.00 (tools), insurance 300.00, a bill of 90.00 that is not paid until the next year.
 *  1  480.00 + 75.00 + 100.00 = 655.00; 5 and 7 the same; 10  40.00; 15  300.00; 22  1,250.00
 *  28  1,590.00; 29 and 31  655.00 - 1,590.00 = -935.00
 * Schedule SE: a loss, so nothing is earned and nothing is owed.
 */
const CLASSES: Files = {
  ...BASE,
  studio: 'format: 1\nname: Second\ncurrency: USD\nbasis: cash\n',
  channels: `
door: { name: Door, kind: direct }
gallery: { name: Gallery, kind: consignment, commission: 40% }
`,
  classes:
    'thrown: { name: Throwing, starts: 2025-03-01, sessions: 4, hours: 2, places: 8, fee: 120 }',
  sales: `
s1: { date: 2025-02-01, channel: door, lines: [{ class: thrown, count: 4, price: 120 }] }
s2: { date: 2025-04-01, channel: door, lines: [{ for: firing a friend's pots, count: 1, price: 75 }] }
s3: { date: 2025-05-01, channel: gallery, commission: 40, lines: [{ product: mug, count: 1, price: 100 }] }
`,
  spent: `
e1: { date: 2025-01-20, to: Wheel maker, for: tools, amount: 1250, lasts: yes }
e2: { date: 2025-02-20, to: Insurer, for: insurance, amount: 300 }
e3: { date: 2025-12-20, to: Printer, for: advertising, amount: 90, paid: 2026-01-05 }
`,
};

const PARTS = ['I:', 'II:', 'III:', 'IV:', 'V:'].map((part) => `Schedule C, Part ${part}`);

describe('a year of mugs at the door', () => {
  const wanted = { period: '2025' };

  it('fills in Schedule C', () => {
    expect(filledLines(formOf(MUGS, wanted, ...PARTS))).toEqual([
      ...['1 1500.00', '2 30.00', '3 1470.00', '4 98.00', '5 1372.00', '7 1372.00'],
      ...['8 40.00', '9 50.00', '20b 600.00', '27b 40.00', '28 730.00', '29 642.00', '31 642.00'],
      ...['36 200.00', '40 200.00', '41 102.00', '42 98.00'],
      ...[' 28.00', ' 12.00', '48 40.00'],
    ]);
  });

  it('fills in Schedule SE', () => {
    expect(formOf(MUGS, wanted, 'Schedule SE')).toEqual([
      ...['2 642.00', '3 642.00', '4a 592.89', '4c 592.89', '6 592.89', '7 176100.00'],
      '8d Ask: Wages and tips with social security tax in the same year',
      ...['9 176100.00', '10 73.52', '11 17.19', '12 90.71', '13 45.36'],
    ]);
  });

  it('says how stock is valued and how far was driven, and asks what it cannot know', () => {
    const lines = formOf(MUGS, wanted, ...PARTS);
    expect(lines).toContain('33 Method used to value closing inventory: a, cost (moving average)');
    expect(lines).toContain('44a Business miles: 100 mi');
    expect(
      lines.filter((line) => line.includes(' Ask: ')).map((line) => line.split(' ')[0]),
    ).toEqual(['32', '34', '43', '44b', '44c', '45', '46', '47']);
  });
});

describe('a year of classes, firing for others and a gallery', () => {
  const wanted = { period: '2025', asOf: '2026-02-01' };

  it('fills in Schedule C, with a loss', () => {
    expect(filledLines(formOf(CLASSES, wanted, ...PARTS))).toEqual([
      ...['1 655.00', '3 655.00', '5 655.00', '7 655.00'],
      ...['10 40.00', '15 300.00', '22 1250.00', '28 1590.00', '29 -935.00', '31 -935.00'],
    ]);
  });

  it('owes no self-employment tax', () => {
    expect(filledLines(formOf(CLASSES, wanted, 'Schedule SE'))).toEqual([
      ...['2 -935.00', '3 -935.00', '7 176100.00', '9 176100.00'],
    ]);
  });

  it('lists the wheel for whoever files to choose', () => {
    expect(formOf(CLASSES, wanted, 'Bought to last')).toEqual([
      '22 1250.00',
      ' Limit: the de minimis safe harbor, an election, takes up to 2,500.00 an item or invoice (limit not verified)',
    ]);
    expect(formOf(CLASSES, wanted, 'Ask before filing').length).toBeGreaterThan(4);
  });
});

describe('the form for people', () => {
  /** Numbers of the lines that the text of a summary shows in a part of the form. */
  async function shown(table: Table, part: string): Promise<string[]> {
    const text = await renderText(table, { width: 120, colour: false });
    const [, after = ''] = text.split(`Schedule C, Part ${part}`);
    const lines = (after.split('\n\n')[0] ?? '').split('\n').slice(1);
    return lines.map((line) => /\S+$/.exec(line)?.[0] ?? '');
  }

  const book = bookFrom(CLASSES);

  it('has every line of a year, zero or not', async () => {
    const lines = await shown(summaryOf(book, { period: '2025' }), 'II:');
    expect(lines).toEqual(
      '8 9 10 11 12 13 14 15 16a 16b 17 18 19 20a 20b 21 22 23 24a 24b 25 26 27a 27b 28 29 30 31 32'.split(
        ' ',
      ),
    );
  });

  it('has only the lines of a quarter that have something on them', async () => {
    const lines = await shown(summaryOf(book, { period: '2025-Q2' }), 'II:');
    expect(lines).toEqual(['10', '15', '22', '28', '29', '31']);
  });

  it('is bold on a page where the form is', () => {
    const page = renderPage(bareTable(summaryOf(book, { period: '2025' })));
    const bold = [
      ...page.matchAll(/<tr id="[^"]+" class="sum">.*?<td class="text">(\w+)<\/td><\/tr>/g),
    ];
    const numbers = bold.map(([, number]) => number);
    expect(numbers.slice(0, 6)).toEqual(['5', '7', '28', '31', '42', '48']);
  });
});
