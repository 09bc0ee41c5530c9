/** What matters of a plan, in a sentence: what won't be there in time, else what is to be started this week. */
import type { Book } from '../../book.ts';
import { andMore } from '../../in-words.ts';
import { dayFromNumber } from '../../number/date.ts';
import type { WorkPlan } from '../../reckon/planning/plan.ts';
import type { WareSort } from '../../reckon/planning/ware-sort.ts';
import type { Row, Verdict } from '../table.ts';

/** The rows of a plan that its verdict speaks of. */
interface PlanRows {
  /** What is to be started this week. */
  readonly starts: readonly Row[];
  readonly isWanted: boolean;
}

/** Undefined where nothing is wanted. */
export function planVerdict(
  book: Book,
  { fitting: { late } }: WorkPlan,
  { starts, isWanted }: PlanRows,
): Verdict | undefined {
  if (!isWanted) return undefined;
  const [first, ...more] = late;
  if (first) {
    const what = `${first.count} ${nameOfWare(book, first.sort)}, due ${dayFromNumber(first.due)}`;
    const figures = [{ label: 'Not in time', column: COUNT, cell: first.count }];
    return {
      sentence: `Not all of it will be there in time: ${what}${andMore(more.length, 'line')}.`,
      figures,
    };
  }
  const [start, ...others] = starts;
  if (!start) return { sentence: NOTHING_TO_START, figures: [] };
  const { count, product, glaze } = start;
  const name = nameOfWare(book, { product: String(product), glaze: glazeIn(glaze) });
  return {
    sentence: `All of it should be there in time; start ${String(count)} ${name} this week${andMore(others.length, 'line')}.`,
    figures: [{ label: 'To start first', column: COUNT, cell: count ?? null }],
  };
}

const COUNT = { type: 'count' } as const;

const NOTHING_TO_START = 'All of it should be there in time, with nothing to start this week.';

function glazeIn(glaze: Row[string]): string | undefined {
  return typeof glaze === 'string' ? glaze : undefined;
}

/** `Mug in Peat black`. */
function nameOfWare(book: Book, { product, glaze }: Pick<WareSort, 'product' | 'glaze'>): string {
  const name = book.products.get(product)?.name ?? product;
  if (glaze === undefined) return name;
  return `${name} in ${book.recipes.get(glaze)?.name ?? glaze}`;
}
