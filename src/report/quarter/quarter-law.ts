/** Parts of the tax summary that the law of a sheet asks for: payees, an allowance, and updates through the year. */
import type { Book } from '../../book.ts';
import { NO_MONEY, less, lesser, roundedMoney, total, type Money } from '../../number/money.ts';
import { digitsOf } from '../../reckon/booked.ts';
import { payeesOver } from '../../reckon/tax/payees.ts';
import type { TaxPeriod } from '../../reckon/tax/tax-period.ts';
import type { TaxSheet } from '../../reckon/tax/tax-sheet.ts';
import type { TaxView } from '../../reckon/tax/tax-view.ts';
import { amountText } from '../day/day-words.ts';
import { updateDue } from './quarter-estimates.ts';
import { lineFigures, lineRows } from './quarter-form.ts';
import type { Accounts, QuarterPart, QuarterRow } from './quarter-rows.ts';
import { verifiedWords } from './tax-words.ts';

/** Payees of the year to date whose payments reach the least that an information return is due for. */
export function payeesPart(view: TaxView, period: TaxPeriod, { payees }: TaxSheet): QuarterPart {
  if (!payees) return { part: 'Information returns', rows: [] };
  const digits = digitsOf(view.book);
  const least = amountText(roundedMoney(payees.least, digits), digits);
  const part = `Paid ${least} or more this year for ${payees.categories.join(' or ')}: an information return may be due${verifiedWords(payees)}`;
  const rows = payeesOver(view, period, payees).map(({ name, brought, broughtToDate }) => ({
    item: `payee.${name}`,
    name,
    amount: total(brought.values()),
    toDate: total(broughtToDate.values()),
    brought,
    broughtToDate,
  }));
  return { part, rows };
}

/** A row that is of the year so far alone; of a whole year people see the first figure. */
function ofYearSoFar([{ period }, { period: year }]: Accounts, row: QuarterRow): QuarterRow {
  return { ...row, amount: period.from === year.from ? row.toDate : null };
}

/** The allowance beside the expenses, for the year to date: whichever is more leaves less profit. */
export function allowancePart(book: Book, accounts: Accounts, sheet: TaxSheet): QuarterPart {
  const { allowance } = sheet;
  const part = 'Allowance instead of expenses, of the year to date';
  if (!allowance) return { part, rows: [] };
  const lines = lineFigures(accounts, book, sheet);
  const sumOf = (keys: readonly string[]): Money =>
    total(lines.filter(({ key }) => keys.includes(key)).map(({ toDate }) => toDate));
  const income = sumOf(allowance.income);
  const spent = sumOf([allowance.expenses]);
  if (income === NO_MONEY && spent === NO_MONEY) return { part, rows: [] };
  const most = roundedMoney(allowance.amount, digitsOf(book));
  const allowed = lesser(most, income > NO_MONEY ? income : NO_MONEY);
  const row = (item: string, name: string, figure: Partial<QuarterRow> & { toDate: Money }) =>
    ofYearSoFar(accounts, {
      item: `allowance.${item}`,
      name,
      amount: null,
      isKept: true,
      ...figure,
    });
  const from = (keys: readonly string[]) => ({ plus: keys.map((key) => `line.${key}`) });
  return {
    part,
    rows: [
      row('income', 'Income', { toDate: income, from: from(allowance.income) }),
      row('expenses', 'Expenses', {
        toDate: spent,
        from: from([allowance.expenses]),
      }),
      row('amount', 'Allowance, never more than the income', {
        toDate: allowed,
        sheetLine: allowance.number,
      }),
      row('profit', 'Profit with the allowance and no expenses', {
        toDate: less(income, allowed),
        from: { plus: ['allowance.income'], less: ['allowance.amount'] },
      }),
    ],
  };
}

/** Whether the form is for an income as that of the year to date; undefined where it has no limit. */
export function limitNote(book: Book, accounts: Accounts, sheet: TaxSheet): string | undefined {
  const { limit } = sheet;
  if (!limit) return undefined;
  const digits = digitsOf(book);
  const lines = lineFigures(accounts, book, sheet).filter(({ key }) => limit.lines.includes(key));
  const income = total(lines.map(({ toDate }) => toDate));
  const most = roundedMoney(limit.amount, digits);
  const [now, end] = [income, most].map((amount) => amountText(amount, digits));
  const [title = 'Income'] = sheet.lines.flatMap(({ key, title: of }) =>
    limit.lines.includes(key) ? [of] : [],
  );
  const words = `the form is for less than ${end} a year${verifiedWords(limit)}`;
  return income < most
    ? `${title} so far is ${now}; ${words}, otherwise ${limit.above}.`
    : `${title} so far is ${now}, and ${words}: ${limit.above}.`;
}

/** What an update to the end of the period says: the year so far, by the categories of updates. */
export function updatePart(
  book: Book,
  accounts: Accounts,
  { sheet, period }: { readonly sheet: TaxSheet; readonly period: TaxPeriod },
): QuarterPart {
  const due = updateDue(sheet, period);
  if (due === undefined || !sheet.updates) return { part: 'Update', rows: [] };
  const { lines } = sheet.updates;
  const part = `Update of the year so far, to ${period.to}, due ${due}${sheet.updates.isUnverified ? ' (its lines are not verified)' : ''}`;
  const rows = lineRows(accounts, { book, sheet: { ...sheet, lines } }, 'update');
  return { part, rows: rows.map((row) => ofYearSoFar(accounts, row)) };
}
