/** Edits in block style: add, change or remove one field or list item with its lines. */
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import { isNumberKey } from '../read/leaf.ts';
import { entryLines, keyHead, literalLines, type Written } from './emit.ts';
import { backOverBlanks } from './flow.ts';
import {
  breaksBetween,
  columnOf,
  insertLines,
  joinLines,
  lineBreakOf,
  lineRest,
  lineStart,
  nextLine,
  pastLine,
  withoutLineBreak,
  type Edit,
} from './lines.ts';
import { quotesOf, type EntryPart, type GroupPart, type ScalarPart } from './parts.ts';
import { ownCommentsFrom, pastOwnComments } from './remove.ts';
import { scalarText, type Quotes } from './scalar.ts';

/** A value to be written, and the spaces of one level in the file. */
export interface Put {
  readonly written: Written;
  readonly step: number;
}

/**
 * Adds a field (or an item, when there is no name) on lines of its own after the last entry and the
 * comment lines that belong to that.
 */
export function addToBlock(
  text: string,
  group: GroupPart,
  { name, written, step }: Put & { readonly name: string | undefined },
): Edit[] {
  const column = columnOf(text, group.start);
  const head = name === undefined ? '-' : keyHead(name, false);
  const place = pastOwnComments(text, pastLine(text, group.end), column);
  return [insertLines(text, place, entryLines(head, written, { column, step }))];
}

/** Adds an item on lines of its own before an entry and the comment lines directly above that. */
export function insertInBlock(
  text: string,
  { group, entry }: { readonly group: GroupPart; readonly entry: EntryPart },
  { written, step }: Put,
): Edit[] {
  const column = columnOf(text, entry.start);
  const before = group.entries[group.entries.indexOf(entry) - 1];
  const place = ownCommentsFrom(text, entry.start, before ? pastLine(text, before.end) : 0);
  return [insertLines(text, place, entryLines('-', written, { column, step }))];
}

/** Puts a value in the place of an entry's value, leaving key, comments and quotes as they are. */
export function replaceInBlock(text: string, entry: EntryPart, put: Put): Edit[] {
  const old = entry.value;
  const { value } = put.written;
  const behind =
    typeof value === 'string' ? behindText(text, entry, put) : behindGroup(text, entry, put);
  if (old.type !== 'scalar') return overValue(text, entry, behind);
  if (old.style === 'block') return overBlockScalar(text, entry, behind);
  return typeof value === 'string' ? [inPlace(old, put.written)] : overValue(text, entry, behind);
}

/** What is to stand behind a colon or a dash, and on the lines under it. */
interface Behind {
  /** Absent where the value begins on the next line. */
  readonly inline?: string;
  readonly lines: readonly string[];
}

// A text becomes a block scalar only where one stood before.
function behindText(text: string, entry: EntryPart, { written, step }: Put): Behind {
  const value = typeof written.value === 'string' ? written.value : '';
  const { start, end } = entry.value;
  const body = text.slice(nextLine(text, start), end);
  const margin = /^[ ]+(?=\S)/m.exec(body)?.[0].length ?? columnOf(text, entry.start) + step;
  const literal = body === '' || written.onOneLine ? undefined : literalLines(value, margin);
  if (!literal) return { inline: oneLine(written), lines: [] };
  return { inline: literal.header, lines: literal.lines };
}

function behindGroup(text: string, entry: EntryPart, { written, step }: Put): Behind {
  const column = columnOf(text, entry.start);
  const head = entry.key ? text.slice(entry.start, entry.mark) : '-';
  const [first = '', ...lines] = entryLines(head, written, { column, step });
  const inline = first.slice(column + head.length + 1);
  if (lines.length === 0) return { inline, lines };
  if (entry.key) return { lines };
  // A comment behind the dash stays there; without one the item begins on the dash's line.
  if (!hasRemark(text, entry)) return { inline, lines };
  return { lines: [' '.repeat(column + 2) + inline, ...lines] };
}

function hasRemark(text: string, { mark = 0, value: { start, end } }: EntryPart): boolean {
  const last = breaksBetween(text, mark, start) ? mark : withoutLineBreak(text, end);
  return lineRest(text, last).trim() !== '' || text[end - 1] === '\n';
}

function oneLine({ value, key }: Written, quotes?: Quotes): string {
  const text = typeof value === 'string' ? value : '';
  return scalarText(text, { number: isNumberKey(key, NUMBER_KEYS), inFlow: false, quotes });
}

function inPlace(old: ScalarPart, written: Written): Edit {
  const text = oneLine(written, quotesOf(old));
  return { start: old.start, end: old.end, text: old.start === old.end ? ` ${text}` : text };
}

function overValue(text: string, entry: EntryPart, { inline, lines }: Behind): Edit[] {
  const { start, end } = entry.value;
  const mark = entry.mark ?? start;
  const behind = inline === undefined ? '' : ` ${inline}`;
  if (!breaksBetween(text, mark, start))
    return [
      { start: mark, end: withoutLineBreak(text, end), text: behind },
      ...(lines.length > 0 ? [insertLines(text, pastLine(text, end), lines)] : []),
    ];
  const whole = { start: lineStart(text, start), end: pastLine(text, end) };
  return [
    { start: mark, end: mark, text: behind },
    { ...whole, text: joinLines(lines, lineBreakOf(text)) },
  ];
}

// The header and the lines under it are changed apart, so that a comment behind the header stays.
function overBlockScalar(text: string, entry: EntryPart, { inline, lines }: Behind): Edit[] {
  const { start, end } = entry.value;
  const header = /^[|>][-+\d]*/.exec(text.slice(start, start + 4))?.[0] ?? '';
  const from = inline === undefined ? backOverBlanks(text, start) : start;
  const body = nextLine(text, start);
  return [
    { start: from, end: start + header.length, text: inline ?? '' },
    body === end
      ? insertLines(text, end, lines)
      : { start: body, end, text: joinLines(lines, lineBreakOf(text)) },
  ];
}
