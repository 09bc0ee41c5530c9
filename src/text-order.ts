/** The one order in which texts stand, whatever the machine and its language. */

/** Compares by code units, for `sort`: below zero where the first one comes first, zero for equal texts. */
export function compareTexts(one: string, other: string): number {
  if (one === other) return 0;
  return one < other ? -1 : 1;
}
