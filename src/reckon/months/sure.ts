/** What a memory must have for the book that it is asked for. */

/** Something that must be there, or what is kept is not of this book. */
export function sure<T>(found: T | undefined, id: string): T {
  if (found === undefined)
    throw new RangeError(`what is remembered names ${id}, which is not there`);
  return found;
}
