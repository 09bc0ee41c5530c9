/** Work that may fail without harm. */

/** What comes of some work; undefined where it throws. */
export function attempt<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch {
    return undefined;
  }
}
