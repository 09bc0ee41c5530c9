/** Which clay may be in a batch of reclaimed clay: all that was thrown since the last was used up. */
import type { Book, Day } from '../../book.ts';
import { cachedFor } from '../../once.ts';
import { NO_QUANTITY, sumOf } from '../../number/measure.ts';
import type { Flows } from '../flows.ts';
import type { Supply } from './supplies.ts';
import { usesOf, type MaterialUse } from './uses.ts';

/** Days of a use of clay that doesn't end as trimmings in the studio. */
const NOT_THROWN: ReadonlySet<string> = new Set(['waste', 'gift']);

/** Every use of clay that leaves trimmings: lots, and clay used up in classes and the studio. */
const thrown = cachedFor((book: Book): readonly MaterialUse[] =>
  usesOf(book).filter(
    ({ what, pool, by }) =>
      what === 'clay' ||
      (what === 'used' &&
        book.materials.get(pool)?.kind === 'clay' &&
        !NOT_THROWN.has(book.used.get(by)?.for ?? 'studio')),
  ),
);

/** The uses of clay that may be in a batch of reclaimed clay. */
export function clayIn(
  book: Book,
  flows: Flows,
  { by, pool, day }: Supply,
): readonly MaterialUse[] {
  const from = trimmingsSince(book, flows, { by, pool, day });
  return thrown(book).filter(({ to }) => from <= to && to <= day);
}

/** The day of the batch before the reclaimed clay was last all used; the book's first where it never was. */
function trimmingsSince(
  { reclaimed }: Book,
  flows: Flows,
  { by, pool, day }: Pick<Supply, 'by' | 'pool' | 'day'>,
): Day {
  const empty = emptyDays(flows)
    .get(pool)
    ?.findLast((each) => each < day);
  if (empty === undefined) return '';
  const before = [...reclaimed.values()].filter(
    ({ id, material, date }) => id !== by && material === pool && date <= empty,
  );
  return before.reduce((last, { date }) => (date > last ? date : last), '');
}

/** Material → the days at whose end nothing of it was left. */
const emptyDays = cachedFor(({ stock }: Flows): ReadonlyMap<string, readonly Day[]> => {
  const held = new Map<string, { quantity: bigint; day: Day; empty: Day[] }>();
  for (const { pool, day, quantity } of stock.movements) {
    const known = held.get(pool) ?? { quantity: NO_QUANTITY, day, empty: [] };
    if (known.day !== day && known.quantity <= NO_QUANTITY) known.empty.push(known.day);
    known.quantity = sumOf(known.quantity as typeof quantity, quantity);
    known.day = day;
    held.set(pool, known);
  }
  for (const { quantity, day, empty } of held.values())
    if (quantity <= NO_QUANTITY) empty.push(day);
  return new Map([...held].map(([pool, { empty }]) => [pool, empty]));
});
