/** What others have paid ahead, for a day's end: deposits, certificates and lessons still to be given. */
import type { Advance, Book } from '../book.ts';
import { counted } from '../in-words.ts';
import { total, type Money } from '../number/money.ts';
import type { OpenAdvance } from '../reckon/advance.ts';
import { digitsOf } from '../reckon/booked.ts';
import type { ClassOwed } from '../reckon/enrolment.ts';
import { sectionOf, type DayView, type Section } from './day-sections.ts';
import { amountText } from './day-words.ts';
import type { Row } from './table.ts';

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

/** `Deposit of Quill (100.00)`. */
function briefText(name: string, left: Money, book: Book): string {
  return `${name} (${amountText(left, digitsOf(book))})`;
}

/** `Deposit of Quill`, `Certificate SF-09`. */
function advanceName({ for: kind, buyer, number }: Advance): string {
  const noun = kind === 'deposit' ? 'Deposit' : 'Certificate';
  const name = [number ?? '', buyer === undefined ? '' : `of ${buyer}`];
  return [noun, ...name.filter((word) => word !== '')].join(' ');
}

/** `Deposit of Quill (100.00 since 2026-01-10)`. */
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
