/** Which table `saggar costs` shows: every product's cost, or one taken apart. */
import type { Book, Day } from '../../book.ts';
import { OVERHEAD_BASES } from '../../groups.ts';
import { addDays } from '../../number/date.ts';
import { flow } from '../../reckon/flow.ts';
import { costsTable } from '../../report/costs.ts';
import { productCostTable } from '../../report/product-cost.ts';
import { unknownId, unknownWord } from '../ids.ts';
import { askedSpan } from '../span.ts';
import { isRefusal, textOption, type Asked, type Refusal } from '../world.ts';
import type { MakeTable } from '../show.ts';

/** Shows what a piece of each product costs, or with an id one product's cost taken apart. */
export const costs: MakeTable = ({ book, asOf }, asked) => {
  const span = costSpan(asked, book, asOf);
  if (isRefusal(span)) return span;
  const word = textOption(asked, 'overheadBy') ?? 'space';
  const by = OVERHEAD_BASES.find((basis) => basis === word);
  if (!by) return unknownWord('--overhead-by', word, OVERHEAD_BASES);
  const flows = flow(book, asOf);
  const product = asked.argument;
  if (product === undefined) return costsTable(book, flows, { span, by });
  const table = productCostTable(book, flows, { product, span, by });
  return table ?? unknownId('product', product, [...book.products.keys()]);
};

/** Days that are looked back over when no start is asked for. */
const WINDOW = 365;

/** What is asked, or the last year's days up to its end. */
function costSpan(asked: Asked, book: Book, asOf: Day): { from: Day; to: Day } | Refusal {
  const span = askedSpan(asked, book, asOf);
  if (isRefusal(span)) return span;
  return { from: span.from ?? addDays(span.to, 1 - WINDOW), to: span.to };
}
