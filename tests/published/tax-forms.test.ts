/** The lines of tax forms, each filled through a book, against the forms in print. */
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import type { Money } from '../../src/number/money.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';
import { builtIn, figureIn, figuresIn, rowIn, summaryOf } from '../helpers/quarter.ts';

const CHANNELS = 'door: { name: Door, kind: direct, tax-place: County }';

/** An expense for each category, of another amount each, so that no two lines look alike. */
function spentOnEach(categories: readonly string[]): Book {
  const spent = categories.map(
    (category, at) =>
      `e${at}: { date: 2025-02-01, to: Somebody, for: ${category}, amount: ${2 ** at} }`,
  );
  return bookFrom({ channels: CHANNELS, spent: spent.join('\n') });
}

const CATEGORIES = [
  'advertising',
  'car',
  'commissions',
  'contract',
  'insurance',
  'interest',
  'professional',
  'office',
  'rent-equipment',
  'rent-place',
  'repairs',
  'supplies',
  'licences',
  'travel',
  'meals',
  'utilities',
  'wages',
  'education',
];

// IRS Schedule C (Form 1040), 2025: the lines that these expenses are titled by.
describe('the lines of Schedule C', () => {
  const LINES = '8 9 10 11 15 16b 17 18 20a 20b 21 22 23 24a 24b 25 26 27b'.split(' ');

  it('take each category where the form has its title', () => {
    const summary = summaryOf(spentOnEach(CATEGORIES), { period: '2025-Q1' });
    const lines = summary.rows.filter(({ item }) => String(item).startsWith('line.'));
    const found = LINES.map((number) => lines.find((row) => row['sheetLine'] === number));
    // Half of meals: the business meals deduction is 50 % (2024 Instructions for Schedule C).
    const halfOfMeals = 2 ** CATEGORIES.indexOf('meals') / 2;
    expect(found.map((row) => told(row?.['amount'] as Money))).toEqual(
      CATEGORIES.map((name, at) => `${name === 'meals' ? halfOfMeals : 2 ** at}.00`),
    );
    const total = `${2 ** CATEGORIES.length - 1 - halfOfMeals}.00`;
    expect(figuresIn(summary, ['line.expenses', 'line.net-profit'])).toEqual([total, `-${total}`]);
  });

  it('have other expenses on 27b in 2025 and on 27a before', () => {
    const numberOf = (id: string): string | undefined =>
      builtIn(id).lines.find(({ key }) => key === 'other-expenses')?.number;
    expect(numberOf('us-schedule-c-2024')).toBe('27a');
    expect(numberOf('us-schedule-c-2025')).toBe('27b');
  });

  it.each([
    ['gross-receipts', '1', 'Gross receipts or sales'],
    ['returns', '2', 'Returns and allowances'],
    ['cost-of-goods', '4', 'Cost of goods sold'],
    ['other-income', '6', 'Other income'],
    ['depreciation', '13', 'Depreciation'],
    ['expenses', '28', 'Total expenses'],
    ['home', '30', 'Business use of your home'],
    ['net-profit', '31', 'Net profit or loss'],
    ['opening-stock', '35', 'Inventory at beginning'],
    ['cost-of-labour', '37', 'Cost of labor (nothing paid to yourself)'],
    ['closing-stock', '41', 'Inventory at end'],
  ])('%s is line %s, %s', (key, number, title) => {
    expect(builtIn('us-schedule-c-2025').lines.find((line) => line.key === key)).toMatchObject({
      number,
      title,
    });
  });
});

// HMRC, SA103S of 2024 (boxes 9 and 11 to 20), and the standard update periods with their days.
describe('the boxes of SA103S', () => {
  const UK = 'format: 1\nname: A studio\ncurrency: GBP\nyear-starts: "04-06"\n';

  it.each([
    ['car', '12'],
    ['wages', '13'],
    ['rent-place', '14'],
    ['utilities', '14'],
    ['insurance', '14'],
    ['repairs', '15'],
    ['professional', '16'],
    ['interest', '17'],
    ['bank', '17'],
    ['office', '18'],
    ['other', '19'],
  ])('have %s in box %s', (category, box) => {
    const book = bookFrom({
      studio: UK,
      spent: `e1: { date: 2025-05-01, to: Somebody, for: ${category}, amount: 50 }`,
    });
    const summary = summaryOf(book, { period: '2025-Q1', sheet: 'uk-sa103s' });
    const inBox = summary.rows.find(
      ({ item, sheetLine }) => String(item).startsWith('line.') && sheetLine === box,
    );
    expect(told(inBox?.['amount'] as Money)).toBe('50.00');
    expect(figureIn(summary, 'line.expenses')).toBe('50.00');
  });

  it.each([
    ['2025-Q1', '2025-07-05', '2025-08-07'],
    ['2025-Q2', '2025-10-05', '2025-11-07'],
    ['2025-Q3', '2026-01-05', '2026-02-07'],
    ['2025-Q4', '2026-04-05', '2026-05-07'],
  ])('are updated for %s to %s by %s', (period, to, due) => {
    const { notes } = summaryOf(bookFrom({ studio: UK }), { period, sheet: 'uk-sa103s' });
    expect(notes).toContain(
      `An update to ${to}, with all of the year so far, is due on ${due} where one is to be sent.`,
    );
  });

  // HMRC, SA103S: for a turnover under 90,000 from 2024-25 (from memory).
  it.each([
    [
      '89999.99',
      'the form is for less than 90,000.00 a year (limit not verified), otherwise use the full form, SA103F.',
    ],
    [
      '90000',
      'and the form is for less than 90,000.00 a year (limit not verified): use the full form, SA103F.',
    ],
  ])('are for a turnover under the limit, and not for one of %s without a word', (sold, words) => {
    const sales = `s1: { date: 2025-05-01, channel: door, lines: [{ for: work, count: 1, price: ${sold} }] }`;
    const book = bookFrom({ studio: UK, channels: CHANNELS, sales });
    const { notes } = summaryOf(book, { period: '2025', sheet: 'uk-sa103s' });
    expect(notes.filter((note) => note.startsWith('Turnover so far is')).join()).toContain(words);
  });

  // HMRC, tax-free allowances on trading income: 1,000, and never more than the income.
  it.each([
    ['2500', '300', ['2500.00', '300.00', '1000.00', '1500.00']],
    ['640', '300', ['640.00', '300.00', '640.00', '0.00']],
  ])('stand beside the allowance, for %s taken and %s spent', (sold, spent, expected) => {
    const book = bookFrom({
      studio: UK,
      channels: CHANNELS,
      sales: `s1: { date: 2025-05-01, channel: door, lines: [{ for: work, count: 1, price: ${sold} }] }`,
      spent: `e1: { date: 2025-05-01, to: Somebody, for: office, amount: ${spent} }`,
    });
    const summary = summaryOf(book, { period: '2025', sheet: 'uk-sa103s' });
    const items = ['income', 'expenses', 'amount', 'profit'].map((key) => `allowance.${key}`);
    expect(figuresIn(summary, items)).toEqual(expected);
  });

  // HMRC, Making Tax Digital: an update has the year so far; the calendar election ends on 30 June.
  it.each([
    ['04-06', '2025-10-05', '2025-11-07'],
    ['04-01', '2025-09-30', '2025-11-07'],
  ])('are updated with the year so far, which starts on %s', (starts, to, due) => {
    const book = bookFrom({
      studio: UK.replace('04-06', starts),
      channels: CHANNELS,
      sales: `
s1: { date: 2025-05-01, channel: door, lines: [{ for: work, count: 1, price: 100 }] }
s2: { date: 2025-08-01, channel: door, lines: [{ for: work, count: 1, price: 30 }] }`,
    });
    const summary = summaryOf(book, { period: '2025-Q2', sheet: 'uk-sa103s' });
    expect(rowIn(summary, 'update.turnover')?.['part']).toBe(
      `Update of the year so far, to ${to}, due ${due} (its lines are not verified)`,
    );
    expect(figureIn(summary, 'update.turnover', 'toDate')).toBe('130.00');
  });

  it('stand cumulative beside the quarter', () => {
    const book = bookFrom({
      studio: UK,
      channels: CHANNELS,
      sales: `
s1: { date: 2025-05-01, channel: door, lines: [{ for: work, count: 1, price: 100 }] }
s2: { date: 2025-08-01, channel: door, lines: [{ for: work, count: 1, price: 30 }] }`,
    });
    const summary = summaryOf(book, { period: '2025-Q2', sheet: 'uk-sa103s' });
    expect(figureIn(summary, 'line.net-profit')).toBe('30.00');
    expect(figureIn(summary, 'line.net-profit', 'toDate')).toBe('130.00');
  });

  // HMRC simplified expenses: 45p a mile up to 10,000 miles, then 25p. 9,900 and 300 miles.
  it('value the miles of a year at two rates', () => {
    const book = bookFrom({
      studio: UK,
      spent: `
e1: { date: 2025-05-01, to: Garage, for: car, amount: 10, distance: 9900 mi }
e2: { date: 2025-08-01, to: Garage, for: car, amount: 10, distance: 300 mi }`,
    });
    const summary = summaryOf(book, { period: '2025-Q2', sheet: 'uk-sa103s' });
    expect(figureIn(summary, 'distance')).toBe('95.00');
    expect(figureIn(summary, 'distance', 'toDate')).toBe('4550.00');
  });
});

// IRS Notices 2024-08 and 2025-5: 67 and 70 cents a mile. 1.609344 km are a mile (NIST Handbook 44).
describe('miles at the standard rate', () => {
  it.each([
    ['2024', '67.00'],
    ['2025', '70.00'],
  ])('in %s are 100 for %s', (year, worth) => {
    const book = bookFrom({
      spent: `e1: { date: ${year}-05-01, to: Garage, for: car, amount: 8, distance: 160.9344 km }`,
    });
    const summary = summaryOf(book, { period: year, sheet: `us-schedule-c-${year}` });
    expect(figuresIn(summary, ['distance', 'distance.car', 'net-profit'])).toEqual([
      worth,
      '8.00',
      '-8.00',
    ]);
  });
});
