/** A book with its definitions as they are on one day: for what is asked of that day alone. */
import type { Book, Day } from '../book.ts';
import { inForce, type Changing } from '../in-force.ts';

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
