/** The one order in which texts stand, whatever the machine and its language. */

/** Compares by code units, for `sort`: below zero where the first one comes first, zero for equal texts. */
export function compareTexts(one: string, other: string): number {
  if (one === other) return 0;
  return one < other ? -1 : 1;
}

/** Compares records by their dates, then by their ids, for `sort`: so the order of the files never shows. */
export function byDate(one: DatedRecord, other: DatedRecord): number {
  return compareTexts(one.date + one.id, other.date + other.id);
}

interface DatedRecord {
  readonly date: string;
  readonly id: string;
}
