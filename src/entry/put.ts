/** Puts a new record into the file that it belongs to, in memory. */
import type { Kind } from '../book.ts';
import { isDay } from '../number/date.ts';
import { wholeText } from '../read/disk.ts';
import type { RawMap } from '../read/raw.ts';
import { emitRecord } from '../write/emit.ts';
import type { Refused } from '../write/parts.ts';
import { appendRecord } from '../write/splice.ts';
import { SCHEMA_FOLDER, modelineFor, targetFile } from '../write/target.ts';
import type { Edited } from './plan.ts';

/** A record that is to be added, and the text that it will stand there with. */
export interface Added {
  readonly id: string;
  readonly file: string;
  readonly text: string;
}

/** A record with its id, and the day that decides on its file. */
export interface NewRecord {
  readonly id: string;
  readonly day: string;
  readonly fields: RawMap;
}

/** Where records of a kind go. */
export interface Shelves {
  readonly folder: string;
  readonly kind: Kind;
  /** The files that the kind's records are in now, from the studio's root. */
  readonly files: readonly string[];
  /** Files that records were put into before this one; this one's is put among them. */
  readonly edited: Map<string, Edited>;
}

/** Puts a record at the end of its file; refused where the file can't take it. */
export function putRecord(
  { folder, kind, files, edited }: Shelves,
  { id, day, fields }: NewRecord,
): Added | Refused {
  const file = targetFile({ kind, id, day }, [...new Set([...files, ...edited.keys()])]);
  const earlier = edited.get(file);
  const before = earlier ? earlier.before : wholeText(folder, file);
  const text = earlier?.after ?? before ?? firstLines(folder, kind, file);
  const put = appendRecord(text, id, fields);
  if ('refused' in put) return { refused: `${file} was left as it is: ${put.refused}` };
  edited.set(file, { file, kind, before, after: put.text });
  return { id, file, text: emitRecord(id, fields) };
}

/** The day that a record is of: its own, where it has a sound one. */
export function dayOf({ date }: RawMap, asOf: string): string {
  return typeof date === 'string' && isDay(date) ? date : asOf;
}

/** A new file tells the editor which schema it goes by, where the studio has the schemas beside it. */
function firstLines(folder: string, kind: Kind, file: string): string {
  const hasSchema = wholeText(folder, `${SCHEMA_FOLDER}/${kind}.json`) !== undefined;
  return hasSchema ? `${modelineFor(kind, file)}\n` : '';
}
