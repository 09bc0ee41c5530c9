/** What others have paid ahead, for a day's end: deposits, certificates and lessons still to be given. */
import type { Advance, Book, Day } from '../../book.ts';
import { counted } from '../../in-words.ts';
import { addDays, daysBetween } from '../../number/date.ts';
import { type Money, NO_MONEY, less, opposite, total } from '../../number/money.ts';
import type { OpenAdvance } from '../../reckon/sales/advance.ts';
import { digitsOf } from '../../reckon/booked.ts';
import type { ClassOwed } from '../../reckon/sales/enrolment.ts';
import { type DayView, type Section, sectionOf } from './day-sections.ts';
import { amountText } from './day-words.ts';
import type { Row } from '../table.ts';
import type { Estimate } from '../../reckon/tax/estimated-tax.ts';
import { type FiledLine, type FiledPeriod, movedLines } from '../../reckon/tax/filed.ts';
import { compareTexts } from '../../text-order.ts';
import { NET_PROFIT } from '../../reckon/tax/tax-sheet.ts';

const MONEY_GROUP = 4;

/** One line for all that is still to be given; none where nothing is. */
export function aheadSections({ book, figures }: DayView): Section[] {
  const { advancesOpen, classesOwed } = figures;
  const owed = [
    ...advancesOpen.map(({ left }) => left),
    ...classesOwed.map(({ amount }) => amount),
  ];
  if (owed.length === 0) return [];
  const rows = [
    ...advancesOpen.map((open) => advanceRow(book, open)),
    ...classesOwed.map((each) => classRow(book, each)),
  ];
  const lead = amountText(total(owed), digitsOf(book));
  const named = [
    ...advancesOpen.map(({ advance, left }) => ({ name: advanceName(advance), amount: left })),
    ...classesOwed,
  ];
  const brief = named
    .sort((one, other) => Number(other.amount - one.amount))
    .map(({ name, amount }) => briefText(name, amount, book));
  return [sectionOf('paid-ahead', { label: 'Paid ahead', group: MONEY_GROUP, lead, brief }, rows)];
}

/** `Deposit from Quill (100.00)`. */
function briefText(name: string, left: Money, book: Book): string {
  return `${name} (${amountText(left, digitsOf(book))})`;
}

/** `Deposit from Quill`, `Certificate SF-09`. */
function advanceName({ for: kind, buyer, number }: Advance): string {
  const noun = kind === 'deposit' ? 'Deposit' : 'Certificate';
  const name = [number ?? '', buyer === undefined ? '' : `from ${buyer}`];
  return [noun, ...name.filter((word) => word !== '')].join(' ');
}

/** `Deposit from Quill (100.00 since 2026-01-10)`. */
function advanceRow(book: Book, { advance, left }: OpenAdvance): Row {
  const { id, for: kind, buyer, number, date } = advance;
  const says = `${advanceName(advance)} (${amountText(left, digitsOf(book))} since ${date})`;
  return { what: id, name: buyer ?? number ?? null, kind, amount: left, since: date, says };
}

/** `Wheel, spring (180.00 for 4 meetings)`. */
function classRow(book: Book, { class: id, name, meetings, amount }: ClassOwed): Row {
  const says = `${name} (${amountText(amount, digitsOf(book))} for ${counted(meetings, 'meeting')})`;
  return { what: id, name, kind: 'class', count: meetings, amount, says };
}

/** One line for all of them; none where everything is as it was filed. */
export function filedSections(book: Book, filed: readonly FiledPeriod[]): Section[] {
  const moved = filed
    .map((each) => ({ each, lines: movedLines(each) }))
    .filter(({ lines }) => lines.length > 0);
  if (moved.length === 0) return [];
  const rows = moved.map(({ each: { filing, period }, lines }) => {
    const profit = lines.find(({ line }) => line.key === NET_PROFIT);
    return {
      what: filing.id,
      name: period.name,
      count: lines.length,
      amount: profit?.difference ?? null,
      since: filing.date,
      says: `${period.name}: ${profit ? profitText(book, profit) : linesText(lines)}`,
    };
  });
  return [sectionOf('filed', { label: 'Filed', group: MONEY_GROUP, lead: '' }, rows)];
}

function profitText(book: Book, { difference }: FiledLine): string {
  const isMore = difference > NO_MONEY;
  const amount = amountText(isMore ? difference : opposite(difference), digitsOf(book));
  return `profit is ${amount} ${isMore ? 'more' : 'less'} than was filed`;
}

function linesText(lines: readonly FiledLine[]): string {
  return `${counted(lines.length, 'line')} differ${lines.length === 1 ? 's' : ''} from what was filed`;
}

const DAYS_AHEAD = 14;

/** The payments that are due within two weeks, the first one first. */
export function estimatesDue(estimates: readonly Estimate[], asOf: Day): Estimate[] {
  const last = addDays(asOf, DAYS_AHEAD);
  return estimates
    .filter(({ due, asked }) => due >= asOf && due <= last && asked.inAll > asked.before)
    .sort((one, other) => compareTexts(one.due, other.due));
}

/** Payments of estimated tax that are due within two weeks; none where nothing is to be paid. */
export function estimateSections(
  { book, figures: { asOf } }: DayView,
  estimates: readonly Estimate[],
): Section[] {
  const soon = estimatesDue(estimates, asOf);
  if (soon.length === 0) return [];
  const rows = soon.map(({ from, to, due, asked }) => {
    const amount = less(asked.inAll, asked.before);
    const says = `${amountText(amount, digitsOf(book))} due ${due}, for ${from} to ${to}`;
    return { what: due, amount, since: due, days: daysBetween(asOf, due), says };
  });
  return [
    sectionOf('estimated-tax', { label: 'Estimated tax', group: MONEY_GROUP, lead: '' }, rows),
  ];
}
