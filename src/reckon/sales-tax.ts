/** Sales tax by place: what was collected, given back and paid over, what is owed, and on which sales. */
import { factsDuring, recordsNaming } from '../among.ts';
import type { Day } from '../book.ts';
import { type Span, addDays } from '../number/date.ts';
import { NO_MONEY, add, addUnder, less, opposite, type Money } from '../number/money.ts';
import { booked } from './booked.ts';
import { countsOn, type SoldSale } from './earned.ts';
import { flow } from './flow.ts';
import { SALES_TAX, isPaidOver, paidOn } from './paid.ts';
import { netOfLines } from './sale-money.ts';
import { collectedBy } from './open.ts';
import type { TaxView } from './tax-view.ts';

/** The sales of a period at one place, after discounts and returns, without tax. */
interface Sales {
  /** Of all lines. */
  readonly sales: Money;
  /** Of the lines that tax was collected on, and of the others. */
  readonly taxed: Money;
  readonly untaxed: Money;
  /** Shipping that tax was collected on. */
  readonly shipping: Money;
}

/** Sales tax at one place; what is given back and paid over is positive. */
export interface TaxAtPlace extends Sales {
  /** Empty where neither the sale nor its channel says. */
  readonly place: string;
  /** What was owed before the period, and at its end: opening + collected − given back − paid over. */
  readonly opening: Money;
  readonly collected: Money;
  readonly givenBack: Money;
  readonly paidOver: Money;
  readonly closing: Money;
  /** The records of the period. */
  readonly behind: readonly string[];
}

/**
 * Sales tax by place, by the names of the places. A sale counts on the day that it is paid on the cash
 * basis, on its date on the accrual basis; a payment counts on the day that it was made. A record gives
 * back what its tax is below zero.
 */
export function taxByPlace(view: TaxView, period: Span): TaxAtPlace[] {
  const places = new Map<string, TaxAtPlace>();
  for (const { place, day, amount, ...event } of taxEvents(view, period)) {
    const had = places.get(place) ?? { ...NO_TAX_YET, place };
    const opening = add(had.opening, amount);
    places.set(place, day < period.from ? { ...had, opening } : withRecord(had, amount, event));
  }
  return [...places.values()]
    .map((at) => ({ ...at, closing: owedAt(at) }))
    .sort((a, b) => (a.place < b.place ? -1 : 1));
}

/** Tax that is to be paid over to a place; empty where none is named. */
export interface TaxOwed {
  readonly place: string;
  readonly amount: Money;
}

/** What is owed to places at the end of a day: tax collected less what was given back and paid over. */
export function taxOwed(view: TaxView): TaxOwed[] {
  const { asOf, basis, flows } = view;
  const owed = collectedBy(flows.taxes, basis, asOf);
  for (const { place, amount } of payments(view, asOf)) addUnder(owed, place, amount);
  return [...owed]
    .filter(([, amount]) => amount !== NO_MONEY)
    .map(([place, amount]) => ({ place, amount }))
    .sort((a, b) => (a.place < b.place ? -1 : 1));
}

const NO_SALES: Sales = { sales: NO_MONEY, taxed: NO_MONEY, untaxed: NO_MONEY, shipping: NO_MONEY };

const NO_TAX_YET: Omit<TaxAtPlace, 'place'> = {
  ...NO_SALES,
  opening: NO_MONEY,
  collected: NO_MONEY,
  givenBack: NO_MONEY,
  paidOver: NO_MONEY,
  closing: NO_MONEY,
  behind: [],
};

/** What one record does to what is owed at a place. */
interface TaxEvent {
  readonly place: string;
  readonly day: Day;
  /** Below zero where it was given back or paid over. */
  readonly amount: Money;
  readonly id: string;
  /** Of a sale in the period; a payment has none. */
  readonly of?: Sales;
}

function withRecord(
  had: TaxAtPlace,
  amount: Money,
  { id, of }: Pick<TaxEvent, 'id' | 'of'>,
): TaxAtPlace {
  const behind = [...had.behind, id];
  if (!of) return { ...had, paidOver: less(had.paidOver, amount), behind };
  return {
    ...had,
    behind,
    sales: add(had.sales, of.sales),
    taxed: add(had.taxed, of.taxed),
    untaxed: add(had.untaxed, of.untaxed),
    shipping: add(had.shipping, of.shipping),
    collected: amount > NO_MONEY ? add(had.collected, amount) : had.collected,
    givenBack: amount < NO_MONEY ? less(had.givenBack, amount) : had.givenBack,
  };
}

function owedAt({ opening, collected, givenBack, paidOver }: TaxAtPlace): Money {
  return less(add(opening, collected), givenBack, paidOver);
}

/** The sales and payments that count in a period, by date, then id; before them what counts earlier. */
function taxEvents(view: TaxView, period: Span): TaxEvent[] {
  const events = [...saleEvents(view, period), ...payments(view, period.to)];
  const isEarlier = ({ day }: TaxEvent): boolean => day < period.from;
  const within = events.filter((event) => !isEarlier(event));
  const inOrder = within.sort((a, b) => (a.day + a.id < b.day + b.id ? -1 : 1));
  return [...collectedBefore(view, period.from), ...events.filter(isEarlier), ...inOrder];
}

/** Tax on the sales up to the eve of a day. */
function collectedBefore({ book, basis, asOf }: TaxView, from: Day): TaxEvent[] {
  const eve = addDays(from, -1);
  const day = eve < asOf ? eve : asOf;
  const collected = collectedBy(flow(book, day).taxes, basis, day);
  return [...collected].map(([place, amount]) => ({ place, day: eve, amount, id: '' }));
}

/** Sales that count in the period, and those from its first day on that were paid before it. */
function saleEvents(view: TaxView, { from, to }: Span): TaxEvent[] {
  return [...factsDuring(view.flows.ware.sales, { from, to })].flatMap((sale) => {
    const { id, place, date, tax: amount } = sale;
    const day = dayUpTo(view, to, [date, countsOn(sale, view.basis)]);
    if (day === undefined || (day < from && date < from)) return [];
    return [{ place, day, id, amount, of: salesOf(sale) }];
  });
}

function salesOf({ lines, taxed, taxedShipping: shipping }: SoldSale): Sales {
  const sales = netOfLines(lines);
  return { sales, taxed, untaxed: less(sales, taxed), shipping };
}

function payments(view: TaxView, to: Day): TaxEvent[] {
  const { book } = view;
  const events: TaxEvent[] = [];
  for (const spent of recordsNaming(book.spent, new Set([SALES_TAX]))) {
    if (!isPaidOver(book, spent)) continue;
    const day = dayUpTo(view, to, [spent.date, paidOn(spent)]);
    if (day === undefined) continue;
    const { id, taxPlace: place = '' } = spent;
    events.push({ place, day, id, amount: opposite(booked(book, spent.amount)) });
  }
  return events;
}

/** The day on which a record counts; undefined where that is after the last day, or not known. */
function dayUpTo(
  { asOf }: TaxView,
  to: Day,
  [date, day]: readonly [Day, Day | undefined],
): Day | undefined {
  return date <= asOf && day !== undefined && day <= asOf && day <= to ? day : undefined;
}
