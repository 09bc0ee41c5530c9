/** What stands below the tax summary: what it is, how it was reckoned, and what it leaves to others. */
import { counted, sentences, setApart } from '../../in-words.ts';
import { recordsDuring } from '../../among.ts';
import type { Decimal } from '../../number/decimal.ts';
import { total } from '../../number/money.ts';
import { digitsOf } from '../../reckon/booked.ts';
import { invoiceTotal } from '../../reckon/sales/debts.ts';
import { datesOf, hasFiguresFor, isCalendarYear } from '../../reckon/tax/estimated-tax.ts';
import type { TaxPeriod } from '../../reckon/tax/tax-period.ts';
import type { TaxSheet } from '../../reckon/tax/tax-sheet.ts';
import type { TaxView } from '../../reckon/tax/tax-view.ts';
import { amountText } from '../day/day-words.ts';
import { isByRate } from '../../reckon/tax/tax-expenses.ts';
import type { GoodsOnCash } from '../../reckon/tax/tax-law.ts';
import type { Book } from '../../book.ts';
import { updateDue } from './quarter-estimates.ts';
import type { Basis } from '../../reckon/sales/income-fact.ts';
import { type FiledPeriod, movedLines } from '../../reckon/tax/filed.ts';
import { listed } from '../../check/finding.ts';
import type { QuarterPart } from './quarter-rows.ts';
import type { Column } from '../table.ts';

/** What the notes are on. */
interface NotesAsked {
  readonly period: TaxPeriod;
  readonly sheet: TaxSheet;
  readonly sheetWords?: string | undefined;
  readonly taxRate?: Decimal | undefined;
  /** Whether the form is for such an income. */
  readonly limitWords?: string | undefined;
}

/** The notes, the most important first. */
export function quarterNotes(view: TaxView, asked: NotesAsked): string[] {
  const { period, sheet, sheetWords, limitWords } = asked;
  return sentences(
    'A summary for a tax preparer, not advice: local rules and licensed advice decide what counts, and where.',
    view.asOf < period.to && `The period is not over: these figures go up to ${view.asOf}.`,
    sheet.unverified !== undefined && `Not verified: ${sheet.unverified}.`,
    view.basis === 'cash'
      ? `Cash basis: sales and expenses count on the day they were paid. ${goodsWords(sheet)}`
      : 'Accrual basis: sales and expenses count on their dates, classes as they are given.',
    ...startNotes(view, period),
    view.book.studio.salesTax === 'none' &&
      'Not registered for sales tax: studio.yaml says sales-tax: none.',
    sheetWords,
    limitWords,
    ...sheetNotes(view, asked),
    ...sheet.cautions,
    ...drivingNotes(view.book, asked),
    ...estimateNotes(view, asked),
  );
}

const GOODS_WORDS: Readonly<Record<GoodsOnCash, string>> = {
  paid: 'Goods are an expense when they are paid for, without stock at the start or the end.',
  'used-and-paid':
    'Materials are deducted when they are used or sold, and not before they are paid for; which of them was used unpaid goes by first bought, first used.',
};

function goodsWords({ goods }: TaxSheet): string {
  return goods?.cash
    ? GOODS_WORDS[goods.cash]
    : 'Stock and purchases go by their dates on either basis.';
}

/** Of days before the book starts nobody knows the cost of goods. */
function startNotes({ book, asOf }: TaxView, { from, to }: TaxPeriod): string[] {
  const { starts } = book.studio;
  if (starts === undefined || from >= starts) return [];
  const isBefore = ({ date }: { readonly date: string }): boolean =>
    date >= from && date < starts && date <= to && date <= asOf;
  const bought = [...recordsDuring(book.bought, { from, to })].filter(isBefore);
  const sum = amountText(total(bought.map((each) => invoiceTotal(book, each))), digitsOf(book));
  return sentences(
    `The book starts on ${starts}: what was sold before that has a cost of goods that is not known, and none is taken off here.`,
    bought.length > 0 &&
      `Materials bought before it, ${sum} in this period, are not in the cost of goods: what was left of them is opening stock; ask a preparer about the rest.`,
  );
}

function sheetNotes({ book }: TaxView, { period, sheet }: NotesAsked): string[] {
  const { currency, yearStarts = '01-01' } = book.studio;
  const due = updateDue(sheet, period);
  return sentences(
    sheet.years !== undefined &&
      !hasFiguresFor(sheet, period.year) &&
      `The sheet is for ${sheet.years.join(', ')}, and not for ${period.year}: lines may have moved.`,
    sheet.currency !== undefined &&
      sheet.currency !== currency &&
      `The sheet is in ${sheet.currency}, and the book in ${currency}.`,
    sheet.yearStarts !== undefined &&
      !sheet.yearStarts.includes(yearStarts) &&
      `The sheet's year starts on ${sheet.yearStarts[0] ?? ''}, and the studio's on ${yearStarts}.`,
    due !== undefined &&
      `An update to ${period.to}, with all of the year so far, is due on ${due} where one is to be sent.`,
  );
}

const MILEAGE_UNITS = { mi: 'mile', km: 'km' } as const;

function drivingNotes(book: Book, { sheet, period }: NotesAsked): string[] {
  const { mileage } = sheet;
  if (!mileage) return [];
  if (!hasFiguresFor(sheet, period.year))
    return [`The distance has no value: the sheet ${sheet.id} has no rate for ${period.year}.`];
  const rates = mileage.rates.map(({ rate, upTo }) =>
    upTo
      ? `${rate.toString()} up to ${setApart(upTo.toString())} ${mileage.unit}`
      : rate.toString(),
  );
  return [
    `Driving is valued at ${rates.join(', then ')} per ${MILEAGE_UNITS[mileage.unit]}: ${mileage.source}. ${carWords(book, period)}`,
  ];
}

function carWords(book: Book, { yearFrom }: TaxPeriod): string {
  return isByRate(book, yearFrom)
    ? 'The rate is deducted (car: mileage in studio.yaml), so fuel, repairs and depreciation are not; parking and tolls may be, as travel. A car that was ever deducted by its costs may be bound to them: ask a preparer.'
    : 'Car expenses or the rate, never both: car: mileage in studio.yaml deducts the rate. The choice of the first year can bind later ones: ask a preparer.';
}

function estimateNotes({ book }: TaxView, { period, sheet, taxRate }: NotesAsked): string[] {
  const { estimates, selfEmployment } = sheet;
  if (!selfEmployment || !estimates) return [];
  if (!isCalendarYear(book)) {
    return ['Estimated tax is left out: its periods are those of a year from 1 January.'];
  }
  if (!hasFiguresFor(sheet, period.year)) {
    return [`Estimated tax is left out: there are no figures for ${period.year} in this sheet.`];
  }
  const days = estimates.periods.map((each) => datesOf(each, period.year).due).join(', ');
  return sentences(
    `Estimated tax for ${period.year} is due on ${days}; weekends and legal holidays are allowed for.`,
    `The annualized method goes by the profit so far, the regular method by last year's tax; ${methodWords(book, period.year)}`,
    'Self-employment tax is that on this profit alone: wages, a spouse and the additional Medicare tax change it.',
    !taxRate &&
      'For income tax too, give your own rate: --tax-rate 22, or income-tax-rate in studio.yaml.',
  );
}

function methodWords({ studio }: Book, year: string): string {
  const last = String(Number(year) - 1);
  return studio.taxYears?.some((each) => each.year === last)
    ? 'one of them, kept to all year, is enough. What withholding pays comes off: ask a preparer.'
    : `only the first is here, for tax-years in studio.yaml does not have the tax of ${last}.`;
}

/** A summary's filings, and the basis on which what was filed is looked at. */
interface FiledView {
  readonly filed: readonly FiledPeriod[];
  readonly basis: Basis;
}

/** Columns that only a period with a filing has. */
export function filedColumns(filed: readonly FiledPeriod[]): Column[] {
  if (filed.length === 0) return [];
  return [
    { key: 'filed', title: 'Filed', type: 'money' },
    { key: 'difference', title: 'Difference', type: 'money' },
  ];
}

/** A part for each sheet that was filed; a difference is what there is now less what was filed. */
export function filedParts({ filed, basis }: FiledView): QuarterPart[] {
  return filed.map(({ filing, sheet, lines }) => ({
    part: `Filed on ${filing.date}: ${sheet.title}, ${basis} basis`,
    rows: lines.map(({ line, now, filed: was, difference }) => ({
      item: `filed.${filing.id}.${line.key}`,
      name: line.title,
      amount: now,
      toDate: null,
      filed: was,
      difference,
      sheetLine: line.number,
      behind: [filing.id],
    })),
  }));
}

/** What is to be said of filings: what they no longer are, and which of them count no more. */
export function filedNotes({ filed, basis }: FiledView, shown: Basis): string[] {
  if (filed.length === 0) return [];
  return sentences(
    ...filed.map(differs),
    ...filed.map(replaces),
    shown !== basis && `What was filed is beside what there is now on the ${basis} basis.`,
  );
}

function differs(filed: FiledPeriod): string | undefined {
  const moved = movedLines(filed);
  if (moved.length === 0) return undefined;
  const { filing, period } = filed;
  const [verb, lines] = moved.length === 1 ? ['differs', 'line'] : ['differ', 'lines'];
  return `${counted(moved.length, 'line')} of ${period.name} ${verb} from what was filed on ${filing.date} (${lines} ${listed(moved.map(({ name }) => name))}). Look at what changed (saggar review), and ask whoever files for you whether to correct the filing.`;
}

function replaces({ filing, replaced }: FiledPeriod): string | undefined {
  if (replaced.length === 0) return undefined;
  const days = listed(replaced.map(({ date }) => date));
  return `The filing of ${filing.date} counts, and takes the place of that of ${days}.`;
}
