/** How a book is looked at for tax: on which basis, up to which day, and amounts with their records. */
import type { Book, Day, Paid } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import { add, total, type Money } from '../../number/money.ts';
import { broughtBy, type Brought, type BroughtParts } from '../brought.ts';
import { incomeFacts } from '../sales/income.ts';
import { type Basis, type IncomeFact, marginOf } from '../sales/income-fact.ts';
import type { Span } from '../../number/date.ts';
import { paidOn } from '../sales/paid.ts';
import type { Flows } from '../flows.ts';
import type { TaxSheet } from './tax-sheet.ts';

/** A book on one basis. */
export interface TaxView {
  readonly book: Book;
  readonly basis: Basis;
  /** Nothing later counts. */
  readonly asOf: Day;
  /** The book run through to that day. */
  readonly flows: Flows;
  /** The sheet whose law holds; without one goods go by stock, and cars by what they cost. */
  readonly sheet?: TaxSheet | undefined;
}

/** A book as it is for tax on a basis: the studio's own when none is given. */
export function taxView(book: Book, flows: Flows, basis = book.studio.basis ?? 'cash'): TaxView {
  return { book, basis, asOf: flows.stock.asOf, flows };
}

/** What decides when a bill counts. */
export type Billed = Pick<TaxView, 'book' | 'basis' | 'asOf' | 'sheet'>;

/** An amount of the summary. */
export interface TaxAmount {
  /** Stable name: `sales.door`. */
  readonly item: string;
  /** The amount of a tax sheet that it is part of: `sales`. */
  readonly counts: string;
  /** In money; what is taken off is negative. */
  readonly amount: Money;
  /** Ids of the records behind it. */
  readonly behind: readonly string[];
  /** What each of them brings to it; left out where there is one, or where that is not known. */
  readonly brought?: Brought;
}

/** Adds up the amounts of one item; items stay in the order in which they came first. */
export function gathered(amounts: readonly TaxAmount[]): TaxAmount[] {
  const groups = grouped(amounts, ({ item }) => item);
  return [...groups.values()].flatMap((group) => {
    const [first] = group;
    if (!first) return [];
    const behind = [...new Set(group.flatMap((each) => each.behind))].sort();
    const parts = group.map(broughtByOne);
    const isKnown = parts.every((each) => each !== undefined);
    const brought = isKnown ? { brought: broughtBy(parts.flat()) } : {};
    return [{ ...first, amount: totalAmount(group), behind, ...brought }];
  });
}

/** Undefined where several records bring an amount and nobody knows how much each. */
function broughtByOne({ amount, behind, brought }: TaxAmount): BroughtParts | undefined {
  if (brought) return [...brought];
  const [only, ...others] = behind;
  return only === undefined || others.length > 0 ? undefined : [[only, amount]];
}

/** All amounts together. */
export function totalAmount(amounts: readonly TaxAmount[]): Money {
  return total(amounts.map(({ amount }) => amount));
}

/** Whether a day is in a period and not after the view's last day. */
export function countsIn(view: Pick<TaxView, 'asOf'>, period: Span, day: Day | undefined): boolean {
  return day !== undefined && day >= period.from && day <= period.to && day <= view.asOf;
}

/** The day on which a sale or an expense counts; undefined while it is not paid, on the cash basis. */
export function countingDay(
  { basis }: Pick<TaxView, 'basis'>,
  record: { readonly date: Day; readonly paid?: Paid },
): Day | undefined {
  return basis === 'accrual' ? record.date : paidOn(record);
}

/** Lines of income that were reckoned for a period. */
interface KnownFacts extends Span {
  readonly basis: Basis;
  readonly facts: readonly IncomeFact[];
}

/** A summary asks for its year, and then again and again for parts of it. */
const knownFacts = new WeakMap<Flows, KnownFacts[]>();

/** The lines of income of a period; taken from those of a longer one where that was asked for before. */
export function factsIn({ book, flows, basis }: TaxView, period: Span): readonly IncomeFact[] {
  const { from, to } = period;
  const all = knownFacts.get(flows) ?? [];
  knownFacts.set(flows, all);
  const whole = all.find((each) => each.basis === basis && each.from <= from && each.to >= to);
  if (whole) return whole.facts.filter(({ day }) => day >= from && day <= to);
  const facts = incomeFacts(book, flows, { from, to, basis });
  all.push({ from, to, basis, facts });
  return facts;
}

/** What a line of income brings after fees and commission, before what the ware cost. */
export function broughtIn(fact: IncomeFact): Money {
  return add(marginOf(fact), fact.cost);
}
