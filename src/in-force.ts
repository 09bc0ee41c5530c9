/** What a definition was on a day: its fields as they were first, and the changes that hold by then. */
import { camelCase } from './camel-case.ts';
import { compareTexts } from './text-order.ts';
import type { Book, Day } from './book.ts';
import { cachedFor } from './once.ts';

/** A definition that may change from a day on. */
export interface Changing {
  readonly changes?: readonly Change[];
}

interface Change {
  readonly from: string;
  readonly without?: readonly string[];
  readonly note?: string;
}

/** A definition as a whole, from a day (ISO) on. */
interface Version<T> {
  readonly from: string;
  readonly whole: T;
}

/**
 * A product, channel, class or the settings as they were in force on a day. What has no changes is given
 * as it is, and so is what is not there.
 */
export function inForce<T extends Changing | undefined>(definition: T, day: string): T {
  if (definition?.changes === undefined) return definition;
  for (const { from, whole } of versionsOf(definition)) if (from <= day) return whole as T;
  return definition;
}

/** The changes of a definition in the order of their days. */
export function changesInOrder<C extends Change>(definition: {
  readonly changes?: readonly C[];
}): readonly C[] {
  return (definition.changes ?? []).toSorted((a, b) => compareTexts(a.from, b.from));
}

/** Versions of the definitions that have changes, the last first; each is put together once. */
const versionsOf = cachedFor((definition: Changing): readonly Version<object>[] => {
  let whole: object = definition;
  const made = changesInOrder(definition).map((change) => {
    whole = changed(whole, change);
    return { from: change.from, whole };
  });
  return made.reverse();
});

// Raw definitions have the keys of the file, typed ones their own names for them.
/** The note of a change says why; that of the definition stays. */
function changed(before: object, { without = [], ...change }: Change): object {
  const gone = new Set([...without, ...without.map(camelCase), 'changes']);
  const named = Object.entries(change).filter(([name]) => !OF_THE_CHANGE.has(name));
  return Object.fromEntries([
    ...Object.entries(before).filter(([name]) => !gone.has(name)),
    ...named,
  ]);
}

const OF_THE_CHANGE: ReadonlySet<string> = new Set(['from', 'note']);

/** A definition as it was first, and as each of its changes left it, in their order. */
export function everyVersion<T extends Changing>(definition: T): readonly T[] {
  if (definition.changes === undefined) return [definition];
  const later = versionsOf(definition).map(({ whole }) => whole as T);
  return [definition, ...later.toReversed()];
}

/** Where a field that is in force on a day stands in the definition: `care`, or `changes`, 0, `care`. */
export function placeInForce(
  definition: Changing,
  field: string,
  day: string,
): readonly (string | number)[] {
  const { changes = [] } = definition;
  const last = changesInOrder(definition).findLast(
    (change) => change.from <= day && (field in change || camelCase(field) in change),
  );
  return last === undefined ? [field] : ['changes', changes.indexOf(last), field];
}

/** The same events among the definitions that are in force on a day. */
export function bookOn(book: Book, day: Day): Book {
  return {
    ...book,
    studio: inForce(book.studio, day),
    products: allOn(book.products, day),
    classes: allOn(book.classes, day),
    channels: allOn(book.channels, day),
  };
}

function allOn<T extends Changing>(
  definitions: ReadonlyMap<string, T>,
  day: Day,
): ReadonlyMap<string, T> {
  return new Map([...definitions].map(([id, definition]) => [id, inForce(definition, day)]));
}
