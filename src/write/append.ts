/** Puts a record at the end of a plain file without a close look at all of it: files of a month grow long. */
import { appendToSimple, isAppended, recordStarts } from './append-simple.ts';
import { applyEdits } from './lines.ts';
import { layoutOf, type Layout } from './parts.ts';
import { appendEdits } from './records.ts';

/**
 * The text with the record at its end, where the fast reader vouches for the text before and after:
 * every record must read as it did, and the new one as it does alone. Undefined where anything is out
 * of the ordinary; `appendRecord` then looks at the whole, and says what is wrong.
 */
export function appendToPlain(text: string, id: string, recordText: string): string | undefined {
  return appendToSimple(text, id, recordText) ?? appendByEnd(text, id, recordText);
}

/** The same by a close look at the last two records and what is about them. */
function appendByEnd(text: string, id: string, recordText: string): string | undefined {
  const from = startOfLastTwo(text);
  if (from === undefined) return undefined;
  const end = layoutOf(text.slice(from));
  if ('refused' in end || end.root?.type !== 'map') return undefined;
  const changed =
    text.slice(0, from) + applyEdits(end.text, appendEdits(end, id, alone(recordText)));
  return isAppended({ text, changed }, id, recordText) ? changed : undefined;
}

/** Where the last record but one begins; undefined where nothing would stand before it. */
function startOfLastTwo(text: string): number | undefined {
  const starts = recordStarts(text);
  const from = starts.at(-2);
  return from === undefined || from === starts[0] ? undefined : from;
}

function alone(text: string): Layout {
  return { mark: '', text, content: new Map(), close: text.length };
}
