/** Which supply may be in which use, and whether a record says so. */
import type { Book, Day } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import { NO_QUANTITY, measureOf, sumOf, type Measure } from '../../number/measure.ts';
import { cachedFor } from '../../once.ts';
import { bucketBefore, countedGone, suppliesOf, type Supply } from './supplies.ts';
import { usesOf, type MaterialUse } from './uses.ts';

/** Whether a record says so, or only nothing rules it out. */
export type Certainty = 'recorded' | 'possible';

/** The weaker of two. */
export function weaker(one: Certainty, other: Certainty): Certainty {
  return one === 'recorded' ? other : one;
}

/**
 * The supplies that a use names: those that were there by then, if any was. None where it names none, or
 * what the book doesn't have.
 */
export function suppliesNamed(book: Book, { pool, named, to }: MaterialUse): readonly Supply[] {
  if (named === undefined) return [];
  const all = (suppliesOf(book).get(pool) ?? []).filter(({ names }) => names.includes(named));
  const there = all.filter(({ day }) => day <= to);
  return there.length > 0 ? there : all;
}

/**
 * Whether something of these supplies is in a use. Recorded: the use names one of them, and no other that
 * the name may mean; or it names a mix that topped one of them up. Possible: it names nothing, and the
 * supply was there by then and isn't shown to be gone; or a mix that it names was topped up with it.
 */
export function linkTo(
  book: Book,
  supplies: ReadonlyMap<string, Certainty>,
  use: MaterialUse,
): Certainty | undefined {
  const own = (suppliesOf(book).get(use.pool) ?? []).filter(({ key }) => supplies.has(key));
  if (own.length === 0) return undefined;
  const named = suppliesNamed(book, use);
  const linked = own.filter((supply) => mayBeIn(book, supply, { use, named }));
  if (linked.length === 0) return undefined;
  const isSure = ({ key }: Supply): boolean => supplies.get(key) === 'recorded';
  const inBucket = linked.filter(({ key }) => isInBucket(book, named, key)).some(isSure);
  const isNamed = named.length > 0 && named.every(isSure);
  return isNamed || inBucket ? 'recorded' : 'possible';
}

/** Whether a mix that is named topped up the supply. */
function isInBucket(book: Book, named: readonly Supply[], key: string): boolean {
  const [only, ...others] = named;
  return only?.kind === 'mix' && others.length === 0 && bucketBefore(book, only.key).has(key);
}

/** Whether a supply may be in a use at all. */
function mayBeIn(
  book: Book,
  supply: Supply,
  { use, named }: { use: MaterialUse; named: readonly Supply[] },
): boolean {
  if (named.length === 0) return wasThere(book, supply, use);
  return named.some(
    ({ key, kind }) =>
      key === supply.key ||
      // A new batch is wedged into what is left of the last.
      (kind === 'reclaimed' && supply.kind === kind && wasThere(book, supply, use)) ||
      bucketBefore(book, key).has(supply.key) ||
      (supply.day <= use.to && bucketBefore(book, supply.key).has(key)),
  );
}

function wasThere(book: Book, supply: Supply, { from, to }: MaterialUse): boolean {
  if (supply.day > to) return false;
  const gone = [countedGone(book, supply), usedUp(book).get(supply.key)].filter(
    (day) => day !== undefined,
  );
  return gone.every((day) => day >= from);
}

/** Bag → the day on which the uses that name it have used up what there was under that name. */
const usedUp = cachedFor((book: Book): ReadonlyMap<string, Day> => {
  const days = new Map<string, Day>();
  const naming = usesOf(book).filter(({ named, what }) => named !== undefined && what !== 'glaze');
  const byName = grouped(naming, ({ pool, named }) => `${pool}\n${named}`);
  for (const uses of byName.values()) {
    const bags = uses[0] === undefined ? [] : suppliesNamed(book, uses[0]);
    const day = bags.some(({ kind }) => kind !== 'bag') ? undefined : dayUsedUp(bags, uses);
    for (const { key } of day === undefined ? [] : bags) days.set(key, day ?? '');
  }
  return days;
});

function dayUsedUp(bags: readonly Supply[], uses: readonly MaterialUse[]): Day | undefined {
  const all = bags.reduce((sum, { quantity }) => sumOf(sum, measured(quantity)), NO_QUANTITY);
  let used = NO_QUANTITY;
  for (const { quantity, to } of [...uses].sort((a, b) => (a.to < b.to ? -1 : 1))) {
    used = sumOf(used, quantity ?? NO_QUANTITY);
    if (used >= all) return to;
  }
  return undefined;
}

function measured(quantity: Supply['quantity']): Measure {
  return quantity === undefined ? NO_QUANTITY : measureOf(quantity);
}
