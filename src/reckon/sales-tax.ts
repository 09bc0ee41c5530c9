/** Sales tax by place: what was collected, given back and paid over, what is owed, and on which sales. */
import { recordsDuring, recordsHaving, recordsNaming } from '../among.ts';
import type { Book, Day, Sale } from '../book.ts';
import { NO_MONEY, add, less, opposite, total, type Money } from '../number/money.ts';
import { booked } from './booked.ts';
import type { Period } from './income.ts';
import { paidOn } from './paid.ts';
import { SALES_TAX, isPaidOver } from './paid-over.ts';
import { statedIn } from './sale-lines.ts';
import { saleMoney, type LineMoney, type SaleMoney } from './sale-money.ts';
import { channelOf, placeOfTax, rateOn, saidOf, taxedKindOf, taxesKind } from './taxed.ts';
import { countingDay, type TaxView } from './tax-view.ts';

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
export function taxByPlace(view: TaxView, period: Period): TaxAtPlace[] {
  const places = new Map<string, TaxAtPlace>();
  for (const { place, day, amount, ...event } of taxEvents(view, period)) {
    const had = places.get(place) ?? { ...NOTHING, place };
    const opening = add(had.opening, amount);
    places.set(place, day < period.from ? { ...had, opening } : counted(had, amount, event));
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
  const { asOf } = view;
  const places = taxByPlace(view, { from: asOf, to: asOf });
  return places
    .filter(({ closing }) => closing !== NO_MONEY)
    .map(({ place, closing }) => ({ place, amount: closing }));
}

const NO_SALES: Sales = { sales: NO_MONEY, taxed: NO_MONEY, untaxed: NO_MONEY, shipping: NO_MONEY };

const NOTHING: Omit<TaxAtPlace, 'place'> = {
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

function counted(
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

/** The sales and payments that count up to the end of a period; those within it by date, then id. */
function taxEvents(view: TaxView, { from, to }: Period): TaxEvent[] {
  const events = [...saleEvents(view, { from, to }), ...payments(view, to)];
  const within = events.filter(({ day }) => day >= from);
  const inOrder = within.sort((a, b) => (a.day + a.id < b.day + b.id ? -1 : 1));
  return [...events.filter(({ day }) => day < from), ...inOrder];
}

/** Of a sale before the period only the tax is asked, which most sales need no look at their lines for. */
function saleEvents(view: TaxView, { from, to }: Period): TaxEvent[] {
  const { book } = view;
  const eventsOf = (
    sales: Iterable<Sale>,
    event: (sale: Sale, day: Day) => Pick<TaxEvent, 'amount' | 'of'> | undefined,
  ): TaxEvent[] =>
    [...sales].flatMap((sale) => {
      const day = dayUpTo(view, to, [sale.date, countingDay(view, sale)]);
      const came = day === undefined ? undefined : event(sale, day);
      if (day === undefined || !came) return [];
      return [{ place: placeOfTax(book, sale), day, id: sale.id, ...came }];
    });
  return [
    ...eventsOf(salesWithTax(book), (sale, day) =>
      day < from ? { amount: taxOf(book, sale) } : undefined,
    ),
    ...eventsOf(recordsDuring(book.sales, { from, to }), (sale, day) =>
      day < from ? undefined : taxAndSales(book, sale),
    ),
  ];
}

/** The sales that may have a tax, each once: those that state one, and those of channels whose prices have it in them. */
function salesWithTax(book: Book): Sale[] {
  const { sales, channels } = book;
  const within = [...channels.values()].filter(
    ({ taxIncluded, changes = [] }) =>
      taxIncluded !== undefined || changes.some((change) => change.taxIncluded !== undefined),
  );
  const stated = [...recordsHaving(sales, 'tax')].filter(({ tax }) => tax !== undefined);
  if (within.length === 0) return stated;
  const ids = new Set(within.map(({ id }) => id));
  const others = [...recordsNaming(sales, ids)].filter(
    (sale) => sale.tax === undefined && channelOf(book, sale)?.taxIncluded !== undefined,
  );
  return [...stated, ...others];
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

/** A tax on top of the prices is as the record has it, so most sales need no look at their lines. */
function taxOf(book: Book, sale: Sale): Money {
  if (channelOf(book, sale)?.taxIncluded) return saleMoney(book, sale).tax;
  return statedIn(sale, booked(book, sale.tax));
}

function taxAndSales(book: Book, sale: Sale): { readonly amount: Money; readonly of: Sales } {
  const money = saleMoney(book, sale);
  const { lines, tax } = money;
  const taxed = tax === NO_MONEY ? [] : taxedLines(book, sale, lines);
  const [sales, on] = [netOf(lines), netOf(taxed)];
  const shipping = tax === NO_MONEY ? NO_MONEY : taxedShipping(book, sale, money);
  return { amount: tax, of: { sales, taxed: on, untaxed: less(sales, on), shipping } };
}

function netOf(lines: readonly LineMoney[]): Money {
  return total(lines.map(({ net, returned }) => (returned ? opposite(net) : net)));
}

/**
 * The lines that the tax of a sale is on, by what the records and the entry of the place on that day
 * say; a tax that none of them explains is on all lines.
 */
function taxedLines(book: Book, sale: Sale, lines: readonly LineMoney[]): readonly LineMoney[] {
  const rate = channelOf(book, sale)?.taxIncluded
    ? undefined
    : rateOn(book, placeOfTax(book, sale), sale.date);
  const taxed = lines.filter(({ line }) => {
    const said = saidOf(book, sale, line);
    return said === undefined ? !rate || taxesKind(rate, taxedKindOf(line)) : said === 'yes';
  });
  return taxed.length === 0 && !isOnShipping(book, sale) ? lines : taxed;
}

function taxedShipping(book: Book, sale: Sale, { shipping }: SaleMoney): Money {
  return isOnShipping(book, sale) ? shipping : NO_MONEY;
}

function isOnShipping(book: Book, sale: Sale): boolean {
  const { taxIncluded, taxInShipping, taxed } = channelOf(book, sale) ?? {};
  if (sale.shipping === undefined || taxed === 'no') return false;
  if (taxIncluded) return taxInShipping !== 'no';
  const rate = rateOn(book, placeOfTax(book, sale), sale.date);
  return rate !== undefined && taxesKind(rate, 'shipping');
}
