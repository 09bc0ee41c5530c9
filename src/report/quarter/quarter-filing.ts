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
import {
  SELF_EMPLOYMENT_LINES,
  type SelfEmployment,
  type SelfEmploymentLine,
} from '../../reckon/tax/tax-law.ts';
import {
  NET_PROFIT,
  amountOfCategory,
  lineAmounts,
  lineFor,
  type TaxSheet,
} from '../../reckon/tax/tax-sheet.ts';
import type { TaxView } from '../../reckon/tax/tax-view.ts';
import type { Accounts, FromRows, QuarterPart, QuarterRow } from './quarter-rows.ts';
import { amountText } from '../day/day-words.ts';
import { categoryName, shareInWords, verifiedWords } from './tax-words.ts';

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
  const wageBase = roundedMoney(figures.wageBase, digits);
  const amounts: Readonly<Record<SelfEmploymentLine, Money | null>> = {
    profit,
    together: profit,
    earnings: tax.earnings,
    'earnings-together': tax.earnings,
    taxed: tax.earnings,
    'wage-base': wageBase,
    wages: null,
    left: wageBase,
    'social-security': tax.socialSecurity,
    medicare: tax.medicare,
    tax: tax.tax,
    half: tax.half,
  };
  const names = selfNames(figures);
  const from = selfFrom();
  return SELF_EMPLOYMENT_LINES.filter((key) => figures.lines?.[key] !== undefined).map((key) => ({
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

function selfItem(key: SelfEmploymentLine): string {
  return `self-employment.${key}`;
}

function selfNames({
  share,
  socialSecurity,
  medicare,
  least,
}: SelfEmployment): Readonly<Record<SelfEmploymentLine, string>> {
  return {
    profit: 'Net profit (Schedule C, line 31)',
    together: 'Lines 1a, 1b and 2 together',
    earnings: `Net earnings: ${shareInWords(share)} of it; zero where that is under ${least.toString()}`,
    'earnings-together': 'Lines 4a and 4b together',
    taxed: 'Lines 4c and 5b together',
    'wage-base': 'The most that social security tax is taken of',
    wages: 'Ask: Wages and tips with social security tax in the same year',
    left: 'Line 7 less line 8d; here without such wages',
    'social-security': `Social security: ${shareInWords(socialSecurity)} of line 6 or 9, the smaller`,
    medicare: `Medicare: ${shareInWords(medicare)} of line 6`,
    tax: 'Self-employment tax',
    half: 'Deduction for one-half of it',
  };
}

function selfFrom(): Readonly<Record<SelfEmploymentLine, FromRows | undefined>> {
  const of = (key: SelfEmploymentLine): FromRows => ({ of: [selfItem(key)] });
  return {
    ...keyed(SELF_EMPLOYMENT_LINES, () => undefined),
    profit: { of: [`line.${NET_PROFIT}`] },
    'wage-base': { words: 'as the sheet has it for the year' },
    together: { plus: [selfItem('profit')] },
    earnings: of('profit'),
    'earnings-together': { plus: [selfItem('earnings')] },
    taxed: { plus: [selfItem('earnings')] },
    left: { plus: [selfItem('wage-base')] },
    'social-security': of('earnings'),
    medicare: of('earnings'),
    tax: { plus: [selfItem('social-security'), selfItem('medicare')] },
    half: { of: [selfItem('tax')], words: 'half of it' },
  };
}

/** What was bought to last, each with its day, its cost and the line that it is on in full. */
export function lastingPart(view: TaxView, [period, year]: Accounts, sheet: TaxSheet): QuarterPart {
  const { book } = view;
  const part = 'Bought to last: choose how each is taken; nothing is depreciated here';
  const inPeriod = new Set(spentIn(view, period.period).map(({ id }) => id));
  const { limitWords, limitRows } = lastingLimit(book, sheet);
  const rows = spentIn(view, year.period)
    .filter(({ lasts }) => lasts === 'yes')
    .map(({ id, date, to, for: category, amount: cost }) => {
      const amount = booked(book, cost);
      return {
        item: `lasting.${id}`,
        name: `${date}, ${to}: ${categoryName(category)}, all of it on this line so far${limitWords(amount)}`,
        amount: inPeriod.has(id) ? amount : NO_MONEY,
        toDate: amount,
        sheetLine: lineFor(sheet, amountOfCategory(category), book.studio.categories)?.number,
        brought: new Map(inPeriod.has(id) ? [[id, amount]] : []),
        broughtToDate: new Map([[id, amount]]),
      };
    });
  return { part, rows: rows.length === 0 ? [] : [...rows, ...limitRows] };
}

/** How what was bought to last lies to the limit of an election, and which one that is. */
function lastingLimit(
  book: Book,
  { lasting }: TaxSheet,
): { limitWords: (amount: Money) => string; limitRows: QuarterRow[] } {
  if (!lasting) return { limitWords: () => '', limitRows: [] };
  const limit = roundedMoney(lasting.limit, digitsOf(book));
  const most = `up to ${amountText(limit, digitsOf(book))} an item or invoice`;
  const name = `Limit: the ${lasting.name}, an election, takes ${most}${verifiedWords(lasting)}`;
  return {
    limitWords: (amount) => (amount > limit ? ', over the limit' : ', within the limit'),
    limitRows: [{ item: 'lasting-limit', name, amount: null, toDate: null }],
  };
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
