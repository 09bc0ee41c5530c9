/** What is wanted by when: open orders, what fairs take along, and what is to be kept ready. */
import type { Book, Day, Grade, OrderLine } from '../../book.ts';
import { compareTexts } from '../../text-order.ts';
import { orderStandings } from '../sales/orders.ts';

/** So many pieces of a product that are wanted for something. */
export interface Demand {
  readonly source: 'order' | 'fair' | 'keep' | 'asked';
  /** The order or the fair; the product that is kept; empty for what is asked for. */
  readonly by: string;
  readonly product: string;
  /** Absent means any. */
  readonly glaze: string | undefined;
  readonly grade: Grade;
  readonly count: number;
  /** The day on which it has to be there; absent for none. */
  readonly due: Day | undefined;
}

/** What a plan can't be made of. */
export interface Unplanned {
  readonly by: string;
  readonly count: number;
  /** What was ordered, in words. */
  readonly what: string;
}

/** Everything that is wanted, in the order in which it is met: by due day, then orders, fairs, and what is kept. */
export function demandsOf(book: Book, asOf: Day, asked: readonly Demand[]): Demand[] {
  const all = [...ordered(book, asOf), ...takenAlong(book, asOf), ...kept(book), ...asked];
  return all.filter(({ count }) => count > 0).sort(byTurn);
}

/** Open lines of orders that no product stands for. */
export function unplannedOf(book: Book, asOf: Day): Unplanned[] {
  return linesToDeliver(book, asOf).flatMap(({ by, line, left }) =>
    line.for === undefined ? [] : [{ by, what: line.for, count: left }],
  );
}

const SOURCES: readonly Demand['source'][] = ['order', 'fair', 'asked', 'keep'];

function byTurn(one: Demand, other: Demand): number {
  return compareTexts(turnOf(one), turnOf(other));
}

function turnOf({ source, due = '9999', by }: Demand): string {
  return [source === 'keep' ? 1 : 0, due, SOURCES.indexOf(source), by].join(' ');
}

interface LineToDeliver {
  readonly by: string;
  readonly due: Day | undefined;
  readonly line: OrderLine;
  readonly left: number;
}

function linesToDeliver(book: Book, asOf: Day): LineToDeliver[] {
  return orderStandings(book, asOf)
    .filter(({ state }) => state === 'open')
    .flatMap(({ order, lines }) =>
      lines
        .filter(({ left }) => left > 0)
        .map(({ line, left }) => ({ by: order.id, due: order.due, line, left })),
    );
}

function ordered(book: Book, asOf: Day): Demand[] {
  return linesToDeliver(book, asOf).flatMap(({ by, due, line, left: count }) => {
    const { product, glaze, grade = 'first' } = line;
    return product === undefined
      ? []
      : [{ source: 'order', by, product, glaze, grade, count, due }];
  });
}

/** Of fairs that are still to begin. */
function takenAlong({ fairs }: Book, asOf: Day): Demand[] {
  return [...fairs.values()]
    .filter(({ date }) => date > asOf)
    .flatMap(({ id: by, date: due, take = [] }) =>
      take.map(({ product, glaze, grade = 'first', count }) => {
        return { source: 'fair', by, product, glaze, grade, count, due } as const;
      }),
    );
}

function kept({ products }: Book): Demand[] {
  return [...products.values()]
    .filter(({ discontinued }) => discontinued === undefined)
    .map(({ id, keep = 0 }) => {
      const any = { glaze: undefined, due: undefined, grade: 'first' } as const;
      return { source: 'keep', by: id, product: id, count: keep, ...any };
    });
}
