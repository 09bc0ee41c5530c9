/** What is not settled yet is what a look at every record of the book finds. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Book, Day } from '../../src/book.ts';
import { NO_MONEY } from '../../src/number/money.ts';
import { owedByOthers } from '../../src/reckon/sales/debts.ts';
import { flow } from '../../src/reckon/flow.ts';
import { collectedBy, countStillIn } from '../../src/reckon/open.ts';
import { isUnpaid } from '../../src/reckon/sales/paid.ts';
import { saleMoney } from '../../src/reckon/sales/sale-money.ts';
import { placeOfTax } from '../../src/reckon/tax/taxed.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { dayIn, part } from './support/days.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';

const plans = studioPlan({
  features: ['consigned', 'terms', 'classes', 'tax-in-price', 'still-in-kiln'],
});

/** By a look at all records up to the day. */
function foundIn(book: Book, day: Day): unknown {
  const firings = [...book.firings.values()].filter(({ date }) => date <= day);
  const sales = [...book.sales.values()].filter(({ date }) => date <= day);
  const taxes = new Map<string, bigint>();
  for (const sale of sales.filter((each) => !isUnpaid(each, day))) {
    const { tax } = saleMoney(book, sale);
    const place = placeOfTax(book, sale);
    if (tax !== NO_MONEY) taxes.set(place, (taxes.get(place) ?? 0n) + tax);
  }
  return {
    sales: sales.filter((sale) => isUnpaid(sale, day)).map(({ id }) => id),
    firings: firings.filter((each) => countStillIn(each, day) > 0).map(({ id }) => id),
    fired: new Set(firings.map(({ kind, kiln }) => `${kind} ${kiln}`)),
    taxes,
  };
}

function known(book: Book, day: Day): unknown {
  const { open, taxes } = flow(book, day);
  const sales = [...open.sales].filter(([, paid]) => paid === undefined || paid > day);
  const inBook = (ids: readonly string[], all: ReadonlyMap<string, unknown>): string[] =>
    [...all.keys()].filter((id) => ids.includes(id));
  return {
    sales: inBook(
      sales.map(([id]) => id),
      book.sales,
    ),
    firings: inBook([...open.firings], book.firings),
    fired: new Set([...open.fired].flatMap(([kind, all]) => [...all].map((id) => `${kind} ${id}`))),
    taxes: collectedBy(taxes, 'cash', day),
  };
}

it('what is owed, in the kiln and collected is what all records say', async () => {
  const property = fc.asyncProperty(plans, part, part, async (plan, one, other) => {
    const { book } = await openFiles(filesOf(plan, undefined), growStudio(plan).asOf);
    const [early = '', late = ''] = [dayIn(plan, one), dayIn(plan, other)].sort();
    for (const day of [early, late]) expect(known(book, day)).toEqual(foundIn(book, day));
    const then = owedByOthers(book, flow(book, early), early);
    expect(owedByOthers(book, flow(book, late), early)).toEqual(then);
  });
  await holds(property, 3);
});
