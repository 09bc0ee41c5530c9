/** Edits in block style: add, change or remove one field or list item with its lines. */
import { entryLines, keyHead, literalLines, type Written } from './emit.ts';
import { backOverBlanks } from './flow.ts';
import {
  beginsLine,
  breaksBetween,
  columnOf,
  insertLines,
  joinLines,
  lineBreakOf,
  lineStart,
  nextLine,
  pastLine,
  type Edit,
} from './lines.ts';
import { quotesOf, type EntryPart, type GroupPart } from './parts.ts';
import { scalarText, type Quotes } from './scalar.ts';

/** A value to be written, and the spaces of one level in the file. */
export interface Put {
  readonly written: Written;
  readonly step: number;
}

/** Adds a field (or an item, when there is no name) on lines of its own after the last entry. */
export function addToBlock(
  text: string,
  group: GroupPart,
  { name, written, step }: Put & { readonly name: string | undefined },
): Edit[] {
  const indent = { column: columnOf(text, group.start), step };
  const head = name === undefined ? '-' : keyHead(name, false);
  return [insertLines(text, pastLine(text, group.end), entryLines(head, written, indent))];
}

/** Puts a value in the place of an entry's value, leaving key, comments and quotes as they are. */
export function replaceInBlock(text: string, entry: EntryPart, put: Put): Edit[] {
  const old = entry.value;
  const isText = typeof put.written.value === 'string';
  const indent = { column: columnOf(text, entry.start), step: put.step };
  if (!isText && !entry.key) return [overItem(text, entry, entryLines('-', put.written, indent))];
  if (old.type === 'scalar' && old.style === 'block')
    return overBlockScalar(text, entry, behindMark(text, entry, put));
  if (old.type === 'scalar' && isText) return [inPlace(entry, oneLine(put.written, quotesOf(old)))];
  if (!entry.key) return [overItem(text, entry, [`- ${oneLine(put.written)}`])];
  return overValue(text, entry, behindMark(text, entry, put));
}

/** What is to stand behind a colon, and on the lines under it. */
interface Behind {
  /** Absent where the value begins on the next line. */
  readonly inline?: string;
  readonly lines: readonly string[];
}

function behindMark(text: string, entry: EntryPart, { written, step }: Put): Behind {
  const { value } = written;
  const indent = { column: columnOf(text, entry.start), step };
  if (typeof value === 'string') {
    const blockBefore = entry.value.type === 'scalar' && entry.value.style === 'block';
    const literal = blockBefore ? literalLines(value, indent.column + step) : undefined;
    return literal
      ? { inline: literal.header, lines: literal.lines }
      : { inline: oneLine(written), lines: [] };
  }
  const head = text.slice(entry.start, entry.mark);
  const [first = '', ...lines] = entryLines(head, written, indent);
  return lines.length === 0
    ? { inline: first.slice(indent.column + head.length + 1), lines }
    : { lines };
}

function oneLine({ value, key, isNumberKey }: Written, quotes?: Quotes): string {
  const text = typeof value === 'string' ? value : '';
  return scalarText(text, { number: isNumberKey(key), inFlow: false, quotes });
}

function inPlace(entry: EntryPart, text: string): Edit {
  const { start, end } = entry.value;
  return { start, end, text: start === end ? ` ${text}` : text };
}

function overItem(text: string, entry: EntryPart, lines: readonly string[]): Edit {
  const end = withoutLineBreak(text, entry.end);
  return { start: entry.start, end, text: lines.join(lineBreakOf(text)).trimStart() };
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

function withoutLineBreak(text: string, end: number): number {
  if (text[end - 1] !== '\n') return end;
  return text[end - 2] === '\r' ? end - 2 : end - 1;
}

/**
 * Removes an entry that is not the only one: its lines, the comment lines directly above that stand
 * in its column, and the comment behind it.
 */
export function removeFromBlock(text: string, group: GroupPart, index: number): Edit[] {
  const entry = group.entries[index];
  if (!entry) return [];
  if (!beginsLine(text, entry.start)) return [removeFirst(text, entry, group.entries[1])];
  const before = group.entries[index - 1];
  const start = ownCommentsFrom(text, entry.start, before ? pastLine(text, before.end) : 0);
  const end = pastLine(text, entry.end);
  // Blank lines that come to stand under a block scalar could become part of it.
  const joins = before !== undefined && text[before.end - 1] === '\n';
  return [{ start, end: joins ? pastBlankLines(text, end) : end, text: '' }];
}

// The first field stands on its item's dash line: the second moves up, or the dash stays alone.
function removeFirst(text: string, entry: EntryPart, next?: EntryPart): Edit {
  const past = pastLine(text, entry.end);
  if (next && lineStart(text, next.start) === past)
    return { start: entry.start, end: next.start, text: '' };
  const start = backOverBlanks(text, entry.start);
  return { start, end: withoutLineBreak(text, past), text: '' };
}

/**
 * Where the comment lines begin that belong to what starts at `start`: those directly above, with no
 * blank line between, in the same column, and not before `floor`.
 */
export function ownCommentsFrom(text: string, start: number, floor: number): number {
  const column = columnOf(text, start);
  let from = lineStart(text, start);
  while (from > floor) {
    const above = lineStart(text, from - 1);
    if (above < floor || text[above + column] !== '#' || !beginsLine(text, above + column)) break;
    from = above;
  }
  return from;
}

/** The offset after the blank lines that begin at an offset. */
export function pastBlankLines(text: string, offset: number): number {
  let end = offset;
  while (end < text.length && text.slice(end, nextLine(text, end)).trim() === '')
    end = nextLine(text, end);
  return end;
}
