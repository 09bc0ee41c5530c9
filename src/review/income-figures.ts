/** What was earned by quarter: income, what selling took of it, and the margin. */
import type { Book, Day } from '../book.ts';
import { grouped } from '../grouping.ts';
import { decimalOf, type Money } from '../number/money.ts';
import { digitsOf } from '../reckon/booked.ts';
import type { Flows } from '../reckon/flow.ts';
import { isWithin } from '../reckon/income-fact.ts';
import { incomeFacts, incomeTotal, marginOf, netOf, type IncomeMoney } from '../reckon/income.ts';
import type { TaxPeriod } from '../reckon/tax-period.ts';
import type { Figure } from './follows.ts';

const INCOME = 'income';
const FEES = 'fees and commission';
const MARGIN = 'margin';

/** The names of these figures, in the order in which they are shown. */
export const INCOME_FIGURES: readonly string[] = [INCOME, FEES, MARGIN];

/** A figure in money. */
export function money(book: Book, [figure, of]: readonly [string, string], value: Money): Figure {
  return { figure, of, type: 'money', value: decimalOf(value, digitsOf(book)) };
}

/** Of more quarters than these the margin is left out: what all the ware cost takes longer than all else. */
const MOST_WITH_MARGIN = 4;

/**
 * By quarter, as the income report has them; nothing is later than the flows' day. Of up to a year's
 * quarters with the margin.
 */
export function incomeFigures(
  book: Book,
  flows: Flows,
  quarters: readonly TaxPeriod[],
): readonly Figure[] {
  if (quarters.length > MOST_WITH_MARGIN) return uncostedFigures(book, flows, quarters);
  return quarters.flatMap((quarter) => {
    const total = incomeTotal(incomeFacts(book, flows, quarter));
    return [
      ...soldFigures(book, quarter, total),
      ...(total.unknown ? [] : [money(book, [MARGIN, quarter.name], marginOf(total))]),
    ];
  });
}

/** One pass finds the facts of them all. */
function uncostedFigures(book: Book, flows: Flows, quarters: readonly TaxPeriod[]): Figure[] {
  const whole = { from: BEGINNING, to: flows.stock.asOf };
  const facts = incomeFacts(book, withoutCosts(flows), whole);
  const quarterOf = once((day) => quarters.find((quarter) => isWithin(day, quarter)));
  const byQuarter = grouped(facts, ({ day }) => quarterOf(day));
  return quarters.flatMap((quarter) =>
    soldFigures(book, quarter, incomeTotal(byQuarter.get(quarter) ?? [])),
  );
}

const BEGINNING = '0000-01-01';

function once<V>(find: (day: Day) => V): (day: Day) => V {
  const found = new Map<Day, { readonly value: V }>();
  return (day) => {
    const known = found.get(day) ?? { value: find(day) };
    found.set(day, known);
    return known.value;
  };
}

function soldFigures(book: Book, { name }: TaxPeriod, total: IncomeMoney): Figure[] {
  return [money(book, [INCOME, name], netOf(total)), money(book, [FEES, name], total.fees)];
}

/** What was sold or used costs nothing in these flows: income and fees do not rest on it, and it takes long. */
function withoutCosts(flows: Flows): Flows {
  const { stock, ware } = flows;
  return {
    ...flows,
    stock: { ...stock, movements: [] },
    ware: { ...ware, sales: [], firings: new Map() },
  };
}
