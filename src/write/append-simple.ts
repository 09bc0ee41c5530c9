/** Puts a record at the end of a file whose end is as plain as can be, without looking for its parts. */
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import { isSameRaw, type RawMap } from '../read/raw.ts';
import { scan } from '../read/scan.ts';

/**
 * The text with the record at its end, where the fast reader vouches for it before and after, and its
 * last two records have no comment in or behind them; undefined in any other case.
 */
export function appendToSimple(text: string, id: string, recordText: string): string | undefined {
  return appendFrom(0, text, { id, recordText });
}

/**
 * The same for a text that is known to hold a file's records and nothing odd, not even the id: the
 * fast reader needs to vouch for no more than the last two of them and the new one.
 */
export function appendToSound(text: string, id: string, recordText: string): string | undefined {
  return appendFrom(recordStarts(text).at(-2) ?? 0, text, { id, recordText });
}

interface NewRecord {
  readonly id: string;
  readonly recordText: string;
}

function appendFrom(from: number, text: string, record: NewRecord): string | undefined {
  const gap = gapAtEnd(text);
  if (gap === undefined) return undefined;
  const changed = text + gap + record.recordText;
  return endsWith(changed.slice(from), record) ? changed : undefined;
}

/**
 * Whether the fast reader reads the record at the text's end as it does alone. A record that begins
 * at the margin changes nothing of what was read before it, so that needs no second look.
 */
function endsWith(text: string, { id, recordText }: NewRecord): boolean {
  const whole = rootOf(text);
  const added = rootOf(recordText)?.[id];
  if (!whole || added === undefined) return false;
  const ids = Object.keys(whole);
  const small = id.toLowerCase();
  const isAlone = ids.every((each) => each === id || each.toLowerCase() !== small);
  return isAlone && ids.at(-1) === id && isSameRaw(whole[id], added);
}

// What the fast reader takes has nothing at the margin but records, comments and the document's start.
const RECORD_START = /^[^\s#-]/gm;

/** Where the records of a text begin that the fast reader takes. */
export function recordStarts(text: string): number[] {
  return [...text.matchAll(RECORD_START)].map(({ index }) => index);
}

/** The file's one comment, such as the line that names its schema. */
const ONE_COMMENT = /^#[^\r\n]*\n$/;

/** A blank line, unless the last two records have none between them. */
function gapAtEnd(text: string): string | undefined {
  if (text === '') return '';
  if (ONE_COMMENT.test(text)) return '\n';
  const starts = recordStarts(text);
  const end = text.slice(starts.at(-2) ?? starts[0]);
  if (starts.length === 0 || text.includes('\r') || end.includes('#') || !/\S\n$/.test(end))
    return undefined;
  const former = text.slice(0, starts.at(-1));
  return starts.length === 1 || /\n[ \t]*\n$/.test(former) ? '\n' : '';
}

/** A text before and after a record was put into it. */
interface Change {
  readonly text: string;
  readonly changed: string;
}

/**
 * Whether the fast reader reads every record as it did, and the new one as it does alone; false
 * where it can't say so, and where the id is taken, without regard to capitals.
 */
export function isAppended({ text, changed }: Change, id: string, recordText: string): boolean {
  const before = rootOf(text);
  const added = rootOf(recordText)?.[id];
  if (!before || added === undefined || isTaken(before, id)) return false;
  const after = rootOf(changed);
  return after !== undefined && isSameRaw(after, withRecord(before, id, added));
}

function rootOf(text: string): RawMap | undefined {
  return scan(text, { numberKeys: NUMBER_KEYS })?.root;
}

function isTaken(root: RawMap, id: string): boolean {
  const small = id.toLowerCase();
  return Object.keys(root).some((key) => key.toLowerCase() === small);
}

function withRecord(root: RawMap, id: string, record: RawMap[string]): RawMap {
  return Object.assign(Object.create(null) as object, root, { [id]: record });
}
