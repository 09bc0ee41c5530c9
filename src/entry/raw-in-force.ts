/** What a definition says on a day, as it stands in its file. */
import type { Day } from '../book.ts';
import { inForce } from '../in-force.ts';
import { isList, isMap, type Raw, type RawMap } from '../read/raw.ts';

/** The fields of a raw definition that are in force on a day; changes of no sound form are passed over. */
export function rawInForce(raw: RawMap, day: Day): RawMap {
  const { changes } = raw;
  if (!isList(changes) || !changes.every(isChange)) return raw;
  return inForce({ ...raw, changes }, day);
}

type RawChange = RawMap & { readonly from: string; readonly without?: readonly string[] };

/** Whether a raw value has the form of a change. */
export function isChange(raw: Raw): raw is RawChange {
  if (!isMap(raw) || typeof raw['from'] !== 'string') return false;
  const { without = [] } = raw;
  return isList(without) && without.every((name) => typeof name === 'string');
}
