/** Whether a change of a definition moves any figure of the closed period. */
import { recordsDuring } from '../among.ts';
import type { Book, Day } from '../book.ts';
import { flow } from '../reckon/flow.ts';
import { incomeFacts } from '../reckon/income.ts';
import { saleMoney } from '../reckon/sale-money.ts';
import { placeOfTax } from '../reckon/taxed.ts';

/** Whether the two books come to anything else up to and with the day. */
export function movesFigures(before: Book, after: Book, through: Day): boolean {
  return figuresOf(before, through) !== figuresOf(after, through);
}

/** What moved in stock, what ware cost, and what sales came to and where they were taxed. */
function figuresOf(book: Book, through: Day): string {
  const flows = flow(book, through);
  const period = { from: '0000-01-01', to: through };
  const sales = [...recordsDuring(book.sales, { to: through })].filter(
    ({ date }) => date <= through,
  );
  const taxed = sales.map((sale) => [saleMoney(book, sale).tax, placeOfTax(book, sale)]);
  const facts = [[...flows.stock.movements], [...flows.ware.facts]];
  const all = [...facts, incomeFacts(book, flows, period), taxed];
  return JSON.stringify(all, (_, value: unknown) =>
    typeof value === 'bigint' ? value.toString() : value,
  );
}
