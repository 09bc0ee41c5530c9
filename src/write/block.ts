/** Edits in block style: add, change or remove one field or list item with its lines. */
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import { isNumberKey } from '../read/yaml/core.ts';
import {
  entryLines,
  keyHead,
  literalLines,
  scalarText,
  type Quotes,
  type Written,
} from './emit.ts';
import { backOverBlanks, removeFromFlow } from './flow.ts';
import {
  beginsLine,
  breaksBetween,
  columnOf,
  insertLines,
  joinLines,
  lineAbove,
  lineBreakOf,
  lineRest,
  lineStart,
  nextLine,
  pastLine,
  withoutLineBreak,
  type Edit,
} from './lines.ts';
import { quotesOf, type EntryPart, type GroupPart, type Layout, type ScalarPart } from './parts.ts';

/** A value to be written, and the spaces of one level in the file. */
interface Put {
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
interface ValueEnd {
  /** Absent where the value begins on the next line. */
  readonly inline?: string;
  readonly lines: readonly string[];
}

// A text becomes a block scalar only where one stood before.
function behindText(text: string, entry: EntryPart, { written, step }: Put): ValueEnd {
  const value = typeof written.value === 'string' ? written.value : '';
  const { start, end } = entry.value;
  const body = text.slice(nextLine(text, start), end);
  const margin = /^[ ]+(?=\S)/m.exec(body)?.[0].length ?? columnOf(text, entry.start) + step;
  const literal = body === '' || written.onOneLine ? undefined : literalLines(value, margin);
  if (!literal) return { inline: oneLine(written), lines: [] };
  return { inline: literal.header, lines: literal.lines };
}

function behindGroup(text: string, entry: EntryPart, { written, step }: Put): ValueEnd {
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

function overValue(text: string, entry: EntryPart, { inline, lines }: ValueEnd): Edit[] {
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
function overBlockScalar(text: string, entry: EntryPart, { inline, lines }: ValueEnd): Edit[] {
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

/**
 * Removes an entry that is not the only one: its lines, the comment lines directly above that stand
 * in its column, the comment behind it, and the comment lines below that stand further in.
 */
export function removeFromBlock(text: string, group: GroupPart, index: number): Edit[] {
  const entry = group.entries[index];
  if (!entry) return [];
  if (!beginsLine(text, entry.start)) return [removeFirst(text, entry, group.entries[1])];
  const before = group.entries[index - 1];
  const start = ownCommentsFrom(text, entry.start, before ? pastLine(text, before.end) : 0);
  const end = pastOwnComments(text, pastLine(text, entry.end), columnOf(text, entry.start));
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
function ownCommentsFrom(text: string, start: number, floor: number): number {
  const column = columnOf(text, start);
  let from = lineStart(text, start);
  let above = lineAbove(text, from, floor);
  while (above !== undefined && text[above + column] === '#' && beginsLine(text, above + column)) {
    from = above;
    above = lineAbove(text, from, floor);
  }
  return from;
}

/** The offset after the blank lines that begin at an offset. */
function pastBlankLines(text: string, offset: number): number {
  let end = offset;
  while (end < text.length && text.slice(end, nextLine(text, end)).trim() === '')
    end = nextLine(text, end);
  return end;
}

/**
 * The offset after the comment lines, from `from` on, that stand further in than a column: they belong
 * to the entry above. Blank lines between them are passed too.
 */
export function pastOwnComments(text: string, from: number, column: number): number {
  let past = from;
  let line = pastBlankLines(text, from);
  while (line < text.length && indentedComment(text, line) > column) {
    past = nextLine(text, line);
    line = pastBlankLines(text, past);
  }
  return past;
}

// The column of the comment that is all of a line, else -1.
function indentedComment(text: string, line: number): number {
  const margin = /^[ \t]*(?=#)/.exec(text.slice(line, nextLine(text, line)));
  return margin ? margin[0].length : -1;
}

/** Entries one after the other, by the numbers of the first and the last. */
interface EntryRun {
  readonly first: number;
  readonly last: number;
}

/** The entries of these keys in runs, between which nothing stands but blank lines and their own comments. */
export function runsOf({ text }: Layout, group: GroupPart, keys: ReadonlySet<string>): EntryRun[] {
  const runs: EntryRun[] = [];
  for (const [index, { key }] of group.entries.entries()) {
    if (!keys.has(key?.text ?? '')) continue;
    const run = runs.at(-1);
    const isNext = run?.last === index - 1 && isJoined(text, group, index);
    if (isNext) runs[runs.length - 1] = { first: run.first, last: index };
    else runs.push({ first: index, last: index });
  }
  return runs;
}

function isJoined(text: string, { entries }: GroupPart, index: number): boolean {
  const [former, entry] = [entries[index - 1], entries[index]];
  if (!former || !entry) return false;
  const end = pastLine(text, former.end);
  const past = pastOwnComments(text, end, columnOf(text, former.start));
  return pastBlankLines(text, past) === ownCommentsFrom(text, entry.start, end);
}

/**
 * Removes records with the comments that belong to them: the comment lines directly above the first at its
 * own margin, except those that begin on the file's first line, which are about the file, and the
 * comment lines below the last that stand further in than the margin. Of the blank lines above and below,
 * those below go too, or those above where nothing comes after. In braces only one can be removed at once.
 */
export function removeEdits(file: Layout, group: GroupPart, { first, last }: EntryRun): Edit[] {
  const { text } = file;
  const [entry, final] = [group.entries[first], group.entries[last]];
  if (!entry || !final) return [];
  if (group.flow) return removeFromFlow(text, group, first);
  const former = group.entries[first - 1];
  const floor = former ? pastLine(text, former.end) : 0;
  const from = ownCommentsFrom(text, entry.start, floor);
  // What begins on the first line is about the file.
  const start = from === lineStart(text, 0) ? lineStart(text, entry.start) : from;
  const end = pastOwnComments(text, pastLine(text, final.end), columnOf(text, entry.start));
  const below = pastBlankLines(text, end);
  const above = fromLinesLike(BLANK, { text, start, floor });
  if (below >= file.close && above > 0) return [{ start: above, end, text: '' }];
  const gap = above < start || start === lineStart(text, 0) || text[floor - 1] === '\n';
  return [{ start, end: gap ? below : end, text: '' }];
}

const BLANK = /^\s*$/;

/** Where the lines directly above a line begin that a pattern fits, as far up as `floor`. */
export function fromLinesLike(
  pattern: RegExp,
  { text, start, floor }: { readonly text: string; readonly start: number; readonly floor: number },
): number {
  let from = start;
  let above = lineAbove(text, from, floor);
  while (above !== undefined && pattern.test(text.slice(above, from))) {
    from = above;
    above = lineAbove(text, from, floor);
  }
  return from;
}
