/** Keys of files as the names that typed records have. */

/** A key of a file as the typed records have it: `paid-on` is `paidOn`. */
export function camelCase(key: string): string {
  return key.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
}
