/** Sales tax by place: what was collected, given back and paid over, what is owed, and on which sales. */
import { earlierDay } from '../../number/date.js';
import { factsDuring, recordsNaming } from '../../among.ts';
import type { Day } from '../../book.ts';
import { type Span, addDays } from '../../number/date.ts';
import { NO_MONEY, add, addUnder, less, opposite, total, type Money } from '../../number/money.ts';
import { booked } from '../booked.ts';
import { countsOn, type SoldSale } from '../sales/earned.ts';
import { flow } from '../flow.ts';
import { SALES_TAX, isPaidOver, paidOn } from '../sales/paid.ts';
import { netOfLines } from '../sales/sale-money.ts';
import { collectedBy } from '../open.ts';
import { broughtBy, type Brought } from '../brought.ts';
import { filingPeriods, firstOfYear, type FilingPeriod } from './filing-periods.ts';
import type { TaxView } from './tax-view.ts';
import { grouped, keyed } from '../../grouping.ts';
import { compareTexts } from '../../text-order.ts';

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

const OF_SALES = ['sales', 'taxed', 'untaxed', 'shipping'] as const;

const BROUGHT_THERE = [...OF_SALES, 'collected', 'givenBack', 'paidOver'] as const;

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
  /** What the records of the period bring: to what was sold, collected, given back and paid over. */
  readonly brought: Readonly<Record<(typeof BROUGHT_THERE)[number], Brought>>;
}

/**
 * Sales tax by place, by the names of the places. A sale counts on the day that it is paid on the cash
 * basis, on its date on the accrual basis; a payment counts on the day that it was made. A record gives
 * back what its tax is below zero.
 */
export function taxByPlace(view: TaxView, period: Span): TaxAtPlace[] {
  const places = grouped(taxEvents(view, period), ({ place }) => place);
  return [...places.keys()]
    .sort()
    .map((place) => atPlace(place, places.get(place) ?? [], period.from));
}

/** What the return of a place asks of a period; each record brings a part to each figure. */
export interface TaxReturn {
  readonly place: string;
  readonly period: FilingPeriod;
  /** Sales and taxed shipping, after discounts and returns, without tax: exempt and taxable together. */
  readonly gross: Brought;
  readonly exempt: Brought;
  readonly taxable: Brought;
  /** Collected less given back. */
  readonly due: Brought;
  readonly paidOver: Brought;
}

/** The returns of each place that is named, for its periods that end in the span; only where something is on them. */
export function taxReturns(view: TaxView, span: Span): TaxReturn[] {
  const { to } = span;
  const events = [...saleEvents(view, { from: firstOfYear(span.from), to }), ...payments(view, to)];
  const places = grouped(events, ({ place }) => place);
  return [...places.keys()].sort().flatMap((place) =>
    filingPeriods(view.book, place, span).flatMap((period) => {
      const own = (places.get(place) ?? []).filter(
        ({ day }) => day >= period.from && day <= period.to,
      );
      return place === '' || own.length === 0 ? [] : [{ place, period, ...returnOf(own) }];
    }),
  );
}

function returnOf(events: readonly TaxEvent[]): Omit<TaxReturn, 'place' | 'period'> {
  const sold = events.filter(({ of }) => of !== undefined);
  const paid = events.filter(({ of }) => of === undefined);
  const bring = (of: (sales: Sales) => Money): Brought =>
    broughtBy(sold.map((event) => [event.id, event.of ? of(event.of) : NO_MONEY]));
  return {
    gross: bring(({ sales, shipping }) => add(sales, shipping)),
    exempt: bring(({ untaxed }) => untaxed),
    taxable: bring(({ taxed, shipping }) => add(taxed, shipping)),
    due: broughtBy(sold.map(({ id, amount }) => [id, amount])),
    paidOver: broughtBy(paid.map(({ id, amount }) => [id, opposite(amount)])),
  };
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

function atPlace(place: string, events: readonly TaxEvent[], from: Day): TaxAtPlace {
  const opening = total(events.filter(({ day }) => day < from).map(({ amount }) => amount));
  const within = events.filter(({ day }) => day >= from);
  const sold = within.filter(({ of }) => of !== undefined);
  const paid = within.filter(({ of }) => of === undefined);
  const bring = (of: readonly TaxEvent[], figure: (event: TaxEvent) => Money): Brought =>
    broughtBy(of.map((event) => [event.id, figure(event)]));
  const brought = {
    ...keyed(OF_SALES, (key) => bring(sold, ({ of }) => of?.[key] ?? NO_MONEY)),
    collected: bring(sold, ({ amount }) => (amount > NO_MONEY ? amount : NO_MONEY)),
    givenBack: bring(sold, ({ amount }) => (amount < NO_MONEY ? opposite(amount) : NO_MONEY)),
    paidOver: bring(paid, ({ amount }) => opposite(amount)),
  };
  const figures = keyed(BROUGHT_THERE, (key) => total(brought[key].values()));
  const { collected, givenBack, paidOver } = figures;
  const closing = less(add(opening, collected), givenBack, paidOver);
  return { place, ...figures, opening, closing, brought };
}

/** What is known of the eve, then the sales and payments that count up to the end, by date, then id. */
function taxEvents(view: TaxView, period: Span): TaxEvent[] {
  const events = [...saleEvents(view, period), ...payments(view, period.to)];
  const inOrder = events.sort((a, b) => compareTexts(a.day + a.id, b.day + b.id));
  return [...collectedBefore(view, period.from), ...inOrder];
}

/** Tax on the sales up to the eve of a day. */
function collectedBefore({ book, basis, asOf }: TaxView, from: Day): TaxEvent[] {
  const eve = addDays(from, -1);
  const day = earlierDay(eve, asOf);
  const collected = collectedBy(flow(book, day).taxes, basis, day);
  return [...collected].map(([place, amount]) => ({ place, day: eve, amount, id: '' }));
}

/** Sales that count in the period, and those from its first day on that were paid before it. */
function saleEvents(view: TaxView, { from, to }: Span): TaxEvent[] {
  return [...factsDuring(view.flows.ware.sales, { from, to })].flatMap((sale) => {
    const { id, place, date, tax: amount } = sale;
    const day = countsOn(sale, view.basis);
    if (day === undefined || !countsUpTo(view, to, { date, day })) return [];
    if (day < from && date < from) return [];
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
    const day = paidOn(spent);
    const { id, date, taxPlace: place = '' } = spent;
    if (day === undefined || !countsUpTo(view, to, { date, day })) continue;
    events.push({ place, day, id, amount: opposite(booked(book, spent.amount)) });
  }
  return events;
}

/** Whether a record counts up to a day, which is its own or that of its payment. */
function countsUpTo({ asOf }: TaxView, to: Day, { date, day }: { date: Day; day: Day }): boolean {
  return date <= asOf && day <= asOf && day <= to;
}
