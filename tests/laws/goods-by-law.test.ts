/** The cost of goods of each sheet and basis is what its law makes of the second reckoning. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import { addDays } from '../../src/number/date.ts';
import { quarterOn } from '../../src/reckon/tax/tax-period.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { holds } from '../helpers/law.ts';
import { rowIn, summaryOf, type Wanted } from '../helpers/quarter.ts';
import { goodsAgain, type GoodsAgain } from '../second-reckoning/goods.ts';
import { filesOf } from './support/broken.ts';
import { dayIn, part } from './support/days.ts';
import { openFiles } from './support/open.ts';

/** The line that a sheet has the cost of goods on, by its basis, and what the law makes of it. */
interface Law extends Pick<Wanted, 'sheet' | 'basis'> {
  readonly line: string;
  readonly cost: (goods: GoodsAgain) => bigint;
}

const byStock = ({ opening, purchases, kept, closing }: GoodsAgain): bigint =>
  opening + purchases - kept - closing;

/** Sources are in the sheets; materials that were paid for when they came go by stock on any basis of Schedule C. */
const LAWS: readonly Law[] = [
  {
    ...{ sheet: 'uk-sa103s', basis: 'cash', line: 'line.goods' },
    cost: ({ paid, kept }) => paid - kept,
  },
  {
    ...{ sheet: 'uk-sa103s', basis: 'accrual', line: 'line.goods' },
    cost: ({ opening, purchases, closing }) => opening + purchases - closing,
  },
  {
    ...{ sheet: 'uk-sa103s', basis: 'accrual', line: 'line.own-use' },
    cost: ({ keptAtPrice }) => keptAtPrice,
  },
  { sheet: 'us-schedule-c', basis: 'accrual', line: 'line.cost-of-goods', cost: byStock },
  { sheet: 'plain', basis: 'cash', line: 'line.cost-of-goods', cost: byStock },
];

const PAID_AT_ONCE: Law = {
  ...{ sheet: 'us-schedule-c', basis: 'cash', line: 'line.cost-of-goods' },
  cost: byStock,
};

/** The book with every bill paid when it came. */
function allPaid(book: Book): Book {
  const bought = [...book.bought].map(([id, bill]) => [id, { ...bill, paid: bill.date }] as const);
  return { ...book, bought: new Map(bought) };
}

it('the cost of goods of a quarter is that of the second reckoning, by the law of each sheet', async () => {
  const property = fc.asyncProperty(studioPlan({ days: 150 }), part, async (plan, when) => {
    const { asOf } = growStudio(plan);
    const { book } = await openFiles(filesOf(plan, undefined), asOf);
    const period = quarterOn(dayIn(plan, when), '01-01');
    if (!period) throw new Error('every day is in a quarter');
    const { name, from } = period;
    const span = { eve: addDays(from, -1), from, to: period.to < asOf ? period.to : asOf };
    const figures = (of: Book, laws: readonly Law[]): unknown[] =>
      laws.map(({ sheet = '', basis = 'cash', line }) => {
        const studio = { ...of.studio, yearStarts: '01-01' };
        const table = summaryOf({ ...of, studio }, { period: name, asOf, sheet, basis });
        return `${sheet} ${basis} ${line} ${String(rowIn(table, line)?.['amount'] ?? 0n)}`;
      });
    const lawful = (of: Book, laws: readonly Law[]): unknown[] => {
      const goods = goodsAgain(of, span);
      return laws.map(
        ({ sheet = '', basis = 'cash', line, cost }) =>
          `${sheet} ${basis} ${line} ${String(cost(goods))}`,
      );
    };
    expect(figures(book, LAWS)).toEqual(lawful(book, LAWS));
    const paid = allPaid(book);
    expect(figures(paid, [PAID_AT_ONCE])).toEqual(lawful(paid, [PAID_AT_ONCE]));
  });
  await holds(property, 3);
});
