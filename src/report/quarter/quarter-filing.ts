/** Parts of the tax summary for whoever fills in the forms: self-employment tax, what lasts, what to ask. */
import type { Book } from '../../book.ts';
import { keyed } from '../../grouping.ts';
import { NO_MONEY, roundedMoney, type Money } from '../../number/money.ts';
import { booked, digitsOf } from '../../reckon/booked.ts';
import {
  hasFiguresFor,
  isCalendarYear,
  selfEmploymentTax,
} from '../../reckon/tax/estimated-tax.ts';
import { spentIn } from '../../reckon/tax/tax-expenses.ts';
import { sheetAmounts } from '../../reckon/tax/tax-profit.ts';
import { SELF_EMPLOYMENT_LINES, type SelfEmployment } from '../../reckon/tax/tax-law.ts';
import {
  NET_PROFIT,
  amountOfCategory,
  lineAmounts,
  lineFor,
  type TaxSheet,
} from '../../reckon/tax/tax-sheet.ts';
import type { TaxView } from '../../reckon/tax/tax-view.ts';
import type { Accounts, FromRows, QuarterPart, QuarterRow } from './quarter-rows.ts';
import { categoryName, shareInWords } from './tax-words.ts';

type SelfLine = (typeof SELF_EMPLOYMENT_LINES)[number];

/** The form on self-employment tax, line by line, on the profit of a whole year. */
export function selfEmploymentPart(book: Book, [account]: Accounts, sheet: TaxSheet): QuarterPart {
  const { selfEmployment: figures } = sheet;
  const part = 'Schedule SE, Part I: Self-employment tax';
  const year = account.period.from.slice(0, 4);
  if (!figures?.lines || !hasFiguresFor(sheet, year) || !isCalendarYear(book))
    return { part, rows: [] };
  const amounts = lineAmounts(sheet, sheetAmounts(account), book.studio.categories);
  const profit = amounts.get(NET_PROFIT) ?? NO_MONEY;
  return { part, rows: selfRows(figures, { profit, digits: digitsOf(book) }) };
}

function selfRows(
  figures: SelfEmployment,
  { profit, digits }: { profit: Money; digits: number },
): QuarterRow[] {
  const tax = selfEmploymentTax(profit, figures, digits);
  const amounts: Readonly<Record<SelfLine, Money | null>> = {
    profit,
    earnings: tax.earnings,
    'wage-base': roundedMoney(figures.wageBase, digits),
    wages: null,
    'social-security': tax.socialSecurity,
    medicare: tax.medicare,
    tax: tax.tax,
    half: tax.half,
  };
  const names = selfNames(figures);
  const from = selfFrom();
  return SELF_EMPLOYMENT_LINES.map((key) => ({
    item: selfItem(key),
    name: names[key],
    amount: amounts[key],
    toDate: amounts[key],
    sheetLine: figures.lines?.[key],
    isKept: true,
    isStrong: key === 'tax' || key === 'half',
    from: from[key],
  }));
}

function selfItem(key: SelfLine): string {
  return `self-employment.${key}`;
}

function selfNames({
  share,
  socialSecurity,
  medicare,
  least,
}: SelfEmployment): Readonly<Record<SelfLine, string>> {
  return {
    profit: 'Net profit (Schedule C, line 31)',
    earnings: `Net earnings: ${shareInWords(share)} of it; zero where that is under ${least.toString()}`,
    'wage-base': 'The most that social security tax is taken of',
    wages: 'Ask: Wages and tips with social security tax in the same year',
    'social-security': `Social security: ${shareInWords(socialSecurity)} of the earnings`,
    medicare: `Medicare: ${shareInWords(medicare)} of the earnings`,
    tax: 'Self-employment tax',
    half: 'Deduction for one-half of it',
  };
}

function selfFrom(): Readonly<Record<SelfLine, FromRows | undefined>> {
  const of = (key: SelfLine): FromRows => ({ of: [selfItem(key)] });
  return {
    ...keyed(SELF_EMPLOYMENT_LINES, () => undefined),
    profit: { of: [`line.${NET_PROFIT}`] },
    earnings: of('profit'),
    'social-security': of('earnings'),
    medicare: of('earnings'),
    tax: { plus: [selfItem('social-security'), selfItem('medicare')] },
    half: { of: [selfItem('tax')], words: 'half of it' },
  };
}

/** What was bought to last, each with its day, its cost and the line that it is on in full. */
export function lastingPart(view: TaxView, [, year]: Accounts, sheet: TaxSheet): QuarterPart {
  const { book } = view;
  const rows = spentIn(view, year.period)
    .filter(({ lasts }) => lasts === 'yes')
    .map(({ id, date, to, for: category, amount }) => ({
      item: `lasting.${id}`,
      name: `${date}, ${to}: ${categoryName(category)}, all of it on this line so far`,
      amount: booked(book, amount),
      toDate: booked(book, amount),
      sheetLine: lineFor(sheet, amountOfCategory(category), book.studio.categories)?.number,
      behind: [id],
    }));
  return { part: 'Bought to last: choose how each is taken; nothing is depreciated here', rows };
}

/** What the program doesn't do, as questions. */
export function questionsPart({ asks = [] }: TaxSheet): QuarterPart {
  const rows = asks.map((name, at) => ({
    item: `ask.${at + 1}`,
    name,
    amount: null,
    toDate: null,
  }));
  return { part: 'Ask before filing', rows };
}
