/** Puts a record at the end of a plain file without a close look at all of it: files of a month grow long. */
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import { isSameRaw, type RawMap } from '../read/raw.ts';
import { scan } from '../read/scan.ts';
import { applyEdits } from './lines.ts';
import { layoutOf, type Layout } from './parts.ts';
import { appendEdits } from './records.ts';

/**
 * The text with the record at its end, where the fast reader vouches for the text before and after:
 * every record must read as it did, and the new one as it does alone. Undefined where anything is out
 * of the ordinary; `appendRecord` then looks at the whole, and says what is wrong.
 */
export function appendToPlain(text: string, id: string, recordText: string): string | undefined {
  const before = rootOf(text);
  const added = rootOf(recordText)?.[id];
  const from = startOfLastTwo(text);
  if (!before || added === undefined || from === undefined || isTaken(before, id)) return undefined;
  const end = layoutOf(text.slice(from));
  if ('refused' in end || end.root?.type !== 'map') return undefined;
  const changed =
    text.slice(0, from) + applyEdits(end.text, appendEdits(end, id, alone(recordText)));
  const after = rootOf(changed);
  return after && isSameRaw(after, withRecord(before, id, added)) ? changed : undefined;
}

function rootOf(text: string): RawMap | undefined {
  return scan(text, { numberKeys: NUMBER_KEYS })?.root;
}

function isTaken(root: RawMap, id: string): boolean {
  const small = id.toLowerCase();
  return Object.keys(root).some((key) => key.toLowerCase() === small);
}

// What the fast reader takes has nothing at the margin but records, comments and the document's start.
const RECORD_START = /^[^\s#-]/gm;

/** Where the last record but one begins; undefined where nothing would stand before it. */
function startOfLastTwo(text: string): number | undefined {
  const starts = [...text.matchAll(RECORD_START)].map(({ index }) => index);
  const from = starts.at(-2);
  return from === undefined || from === starts[0] ? undefined : from;
}

function alone(text: string): Layout {
  return { mark: '', text, content: new Map(), close: text.length };
}

function withRecord(root: RawMap, id: string, record: RawMap[string]): RawMap {
  return Object.assign(Object.create(null) as object, root, { [id]: record });
}
