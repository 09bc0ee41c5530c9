/** What was earned by quarter: income, what selling took of it, and the margin. */
import type { Book, Day } from '../book.ts';
import { grouped } from '../grouping.ts';
import { cached } from '../once.ts';
import { isAmong } from '../among.ts';
import { type IncomeMoney, incomeTotal, marginOf, netOf } from '../reckon/sales/income-fact.ts';
import { incomeFacts } from '../reckon/sales/income.ts';
import type { TaxPeriod } from '../reckon/tax/tax-period.ts';
import type { Flows } from '../reckon/flows.ts';
import { moneyFigure, type SideFigure } from './figures.ts';

const INCOME = 'income';
const FEES = 'fees and commission';
const MARGIN = 'margin';

/** The names of these figures, in the order in which they are shown. */
export const INCOME_FIGURES: readonly string[] = [INCOME, FEES, MARGIN];

/** Of more quarters than these the margin is left out. */
const MOST_WITH_MARGIN = 4;

/**
 * By quarter, as the income report has them; nothing is later than the flows' day. Of up to a year's
 * quarters with the margin.
 */
export function incomeFigures(
  book: Book,
  flows: Flows,
  quarters: readonly TaxPeriod[],
): readonly SideFigure[] {
  const [first, last] = [quarters[0], quarters.at(-1)];
  if (!first || !last) return [];
  const facts = incomeFacts(book, flows, { from: first.from, to: last.to });
  const quarterOf = cached((day: Day) => quarters.find((quarter) => isAmong(day, quarter)));
  const byQuarter = grouped(facts, ({ day }) => quarterOf(day));
  return quarters.flatMap((quarter) => {
    const total = incomeTotal(byQuarter.get(quarter) ?? []);
    const isShort = total.unknown || quarters.length > MOST_WITH_MARGIN;
    return [
      ...soldFigures(book, quarter, total),
      ...(isShort
        ? []
        : [moneyFigure(book, { figure: MARGIN, of: quarter.name }, marginOf(total))]),
    ];
  });
}

function soldFigures(book: Book, { name }: TaxPeriod, total: IncomeMoney): SideFigure[] {
  return [
    moneyFigure(book, { figure: INCOME, of: name }, netOf(total)),
    moneyFigure(book, { figure: FEES, of: name }, total.fees),
  ];
}
