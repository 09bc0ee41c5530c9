/** What a change of texts does to the records in them, value by value, as they stand in the files. */
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import type { Kind } from '../book.ts';
import { kindOf, SETTINGS_FILE } from '../read/kinds.ts';
import { isList, isMap, mapping, type Path, type Raw, type RawMap } from '../read/raw.ts';
import { cutRecords } from '../read/records.ts';
import { parseText } from '../read/yaml/parse.ts';
import type { FileChange } from '../write/diff.ts';
import { withoutMark } from './given.ts';

/** A value before and after; null where there is none. */
export interface ValueDifference {
  /** Keys from the record on, joined by dots; entries of a list count from 1, as `amend` takes them. */
  readonly path: string;
  readonly before: Raw | null;
  readonly after: Raw | null;
}

/** What became of a record, or of the settings, whose id is empty. */
export interface RecordDifference {
  readonly kind: Kind | 'studio';
  readonly id: string;
  readonly became: 'added' | 'changed' | 'removed';
  readonly file: string;
  /** The line where it begins; that of the old text where it is removed. */
  readonly line: number;
  readonly fields: readonly ValueDifference[];
}

/** Every record of the texts that is not what it was, in the order of the files and of their lines. */
export function changedRecords(changes: readonly FileChange[]): readonly RecordDifference[] {
  return changes.flatMap((change) => {
    const kind = kindOf(change.file);
    if (kind === undefined) return [];
    const [old, now] = [recordsOf(change, change.before), recordsOf(change, change.after)];
    const ids = new Set([...Object.keys(now), ...Object.keys(old)]);
    return [...ids].flatMap((id): RecordDifference[] => {
      const fields = valueDifferences(old[id] ?? mapping([]), now[id] ?? mapping([]), []);
      const became = !(id in old) ? 'added' : id in now ? 'changed' : 'removed';
      if (became === 'changed' && fields.length === 0) return [];
      const text = became === 'removed' ? change.before : change.after;
      return [{ kind, id, became, file: change.file, line: lineOfRecord(text ?? '', id), fields }];
    });
  });
}

/** The records of a text; of the settings one without an id. */
function recordsOf({ file }: FileChange, text: string | undefined): RawMap {
  if (text === undefined) return mapping([]);
  const { root } = parseText({ file, text: withoutMark(text) }, { numberKeys: NUMBER_KEYS });
  return file === SETTINGS_FILE ? mapping([['', root]]) : root;
}

/** Counted from 1. */
function lineOfRecord(text: string, id: string): number {
  const plain = withoutMark(text);
  const start = cutRecords(plain).records.find((record) => record.id === id)?.start ?? 0;
  return plain.slice(0, start).split('\n').length;
}

/** Every value that is not in both just so, by its path. */
export function valueDifferences(before: Raw, after: Raw, path: Path): ValueDifference[] {
  const keys = commonKeys(before, after);
  if (keys === undefined)
    return before === after ? [] : [{ path: pathInWords(path), before, after }];
  return keys.flatMap((key) => {
    const inner = [...path, key];
    const [old, now] = [at(before, key), at(after, key)];
    if (old !== undefined && now !== undefined) return valueDifferences(old, now, inner);
    return [{ path: pathInWords(inner), before: old ?? null, after: now ?? null }];
  });
}

/** The keys of two mappings or lists; undefined of anything else. */
function commonKeys(before: Raw, after: Raw): Path | undefined {
  if (isMap(before) && isMap(after))
    return [...new Set([...Object.keys(before), ...Object.keys(after)])];
  if (!isList(before) || !isList(after)) return undefined;
  return Array.from({ length: Math.max(before.length, after.length) }, (_, index) => index);
}

function at(value: Raw, key: string | number): Raw | undefined {
  if (isList(value)) return value[Number(key)];
  return isMap(value) ? value[key] : undefined;
}

function pathInWords(path: Path): string {
  return path.map((step) => (typeof step === 'number' ? step + 1 : step)).join('.');
}
