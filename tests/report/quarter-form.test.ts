/** Years of invented studios as finished forms; each figure is worked by hand in the comment beside the studio. */
import { describe, expect, it } from 'vitest';
import { renderPage } from '../../src/render/html/page.ts';
import { bareTable } from '../../src/report/page.ts';
import { renderText } from '../../src/render/terminal/text.ts';
import type { Table } from '../../src/report/table.ts';
import { bookFrom, type Files } from '../helpers/book.ts';
import {
  BRITISH,
  BRITISH_FILLED,
  CLASSES,
  COMMISSIONS,
  COMMISSIONS_FILLED,
  MUGS,
  STOCK,
} from './invented-years.ts';
import { told } from '../helpers/minor.ts';
import { figureIn, figuresIn, summaryOf, type Wanted } from '../helpers/quarter.ts';

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

describe('a year of commissioned work with the car by its rate', () => {
  const wanted = { period: '2025' };

  it('fills in Schedule C and Schedule SE', () => {
    const lines = formOf(COMMISSIONS, wanted, ...PARTS, 'Schedule SE');
    expect(filledLines(lines)).toEqual(COMMISSIONS_FILLED);
    expect(formOf(COMMISSIONS, wanted, 'On no line')).toEqual([' -40.67']);
    expect(lines).toContain('44a Business miles: 1234 mi');
  });

  it('asks for nothing more at the last payment, by either method', () => {
    const summary = summaryOf(bookFrom(COMMISSIONS), wanted);
    const keys = ['set-aside', 'payment', 'regular-year', 'regular-set-aside', 'regular-payment'];
    const items = keys.map((key) => `estimate.4.${key}`);
    expect(figuresIn(summary, items)).toEqual(['1669.02', '0.00', '576.17', '600.00', '0.00']);
  });

  it('says what of that to last is over the limit, and who was paid the least for a return', () => {
    const { rows } = summaryOf(bookFrom(COMMISSIONS), wanted);
    const names = rows
      .filter(({ item }) => /^(?:lasting\.|payee\.)/.test(String(item)))
      .map(({ name }) => String(name));
    expect(names).toEqual([
      '2025-06-01, Wheel maker: Tools, all of it on this line so far, over the limit',
      '2025-06-02, Kiln shop: Kiln parts, all of it on this line so far, within the limit',
      'Helper',
    ]);
  });

  it('has what lasts and what payees got in the quarter that it is of', () => {
    const items = ['lasting.e6', 'payee.Helper'];
    const figures = ['2025-Q2', '2025-Q3', '2025-Q4'].map((period) => {
      const table = summaryOf(bookFrom(COMMISSIONS), { period });
      return items.map((item) => [figureIn(table, item), figureIn(table, item, 'toDate')]);
    });
    expect(figures).toEqual([
      [
        ['2800.00', '2800.00'],
        [undefined, undefined],
      ],
      [
        ['0.00', '2800.00'],
        ['700.00', '700.00'],
      ],
      [
        ['0.00', '2800.00'],
        ['0.00', '700.00'],
      ],
    ]);
  });
});

describe('a year of mugs with stock at both ends', () => {
  const wanted = { period: '2025', asOf: '2026-02-01' };

  it('fills in Schedule C', () => {
    expect(filledLines(formOf(STOCK, wanted, ...PARTS))).toEqual([
      ...['1 1356.00', '3 1356.00', '4 183.96', '5 1172.04', '6 12.00', '7 1184.04'],
      ...['20b 480.00', '25 120.00', '28 600.00', '29 584.04', '31 584.04'],
      ...['35 500.00', '36 314.58', '40 814.58', '41 630.62', '42 183.96'],
    ]);
    expect(formOf(STOCK, wanted, ...PARTS)).toContain(
      '33 Method used to value closing inventory: a, cost (first bought, first used)',
    );
  });

  it('fills in Schedule SE', () => {
    expect(filledLines(formOf(STOCK, wanted, 'Schedule SE'))).toEqual([
      ...['2 584.04', '3 584.04', '4a 539.36', '4c 539.36', '6 539.36', '7 176100.00'],
      ...['9 176100.00', '10 66.88', '11 15.64', '12 82.52', '13 41.26'],
    ]);
  });
});

describe('a year of mugs and a class in the United Kingdom', () => {
  const wanted = { period: '2025', sheet: 'uk-sa103s', asOf: '2026-06-01' };

  it('fills in SA103S', () => {
    expect(filledLines(formOf(BRITISH, wanted, 'SA103S'))).toEqual(BRITISH_FILLED);
  });

  it('has the trading allowance beside the expenses', () => {
    expect(formOf(BRITISH, wanted, 'Allowance')).toEqual([
      ...[' 1075.00', ' 459.50', '10.1 1000.00', ' 75.00'],
    ]);
  });

  it('has the year so far in an update, to date alone', () => {
    const table = summaryOf(bookFrom(BRITISH), { ...wanted, period: '2025-Q2' });
    const lines = ['turnover', 'other-income', 'goods', 'premises'].map((key) => `update.${key}`);
    // By 5 October: 750.00 - 25.00 + 200.00; 200.00 less 120.00 and 11 mugs of 2.00; rent and insurance.
    expect(lines.map((item) => figureIn(table, item, 'toDate'))).toEqual([
      ...['925.00', '0.00', '58.00', '165.00'],
    ]);
    expect(figuresIn(table, lines)).toEqual(lines.map(() => undefined));
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
