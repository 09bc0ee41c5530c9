/** Finds the last record that is like the one that is being written, for what is usual and for defaults. */
import type { Kind } from '../../book.ts';
import { isMap, valueAt, type Path, type Raw, type RawMap } from '../../read/raw.ts';
import { compareTexts } from '../../text-order.ts';
import type { Lexicon } from '../lexicon.ts';

/** The records of a kind, the oldest first; of one day in the order of the files. */
export function recordsByDay(lexicon: Lexicon, kind: Kind): readonly RawMap[] {
  const records = lexicon.records([kind]).flatMap(({ raw }) => (isMap(raw) ? [raw] : []));
  return records.sort((a, b) => compareTexts(dayOf(a), dayOf(b)));
}

/** The last record that has the same values as some fields wherever those say anything at the paths. */
export function lastLike(
  records: readonly RawMap[],
  fields: RawMap,
  paths: readonly Path[],
): RawMap | undefined {
  const wanted = paths.flatMap((path) => {
    const value = valueAt(fields, path);
    return typeof value === 'string' ? [{ path, value }] : [];
  });
  return records.findLast((record) =>
    wanted.every(({ path, value }) => valueAt(record, path) === value),
  );
}

/** The texts that stood at a path, the last one first, each once. */
export function earlierTexts(records: readonly RawMap[], path: Path): readonly string[] {
  const texts = records.flatMap((record) => textAt(record, path));
  return [...new Set(texts.reverse())];
}

function textAt(record: RawMap, path: Path): string[] {
  const value = valueAt(record, path);
  return typeof value === 'string' ? [value] : [];
}

function dayOf(record: RawMap): string {
  const day: Raw | undefined = record['date'];
  return typeof day === 'string' ? day : '';
}
