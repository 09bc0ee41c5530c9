/** Removes a record, or a field or list item in block style, with the lines and comments that belong to it. */
import { backOverBlanks, removeFromFlow } from './flow.ts';
import {
  beginsLine,
  columnOf,
  lineAbove,
  lineStart,
  nextLine,
  pastLine,
  withoutLineBreak,
  type Edit,
} from './lines.ts';
import type { EntryPart, GroupPart, Layout } from './parts.ts';

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
export function ownCommentsFrom(text: string, start: number, floor: number): number {
  const column = columnOf(text, start);
  let from = lineStart(text, start);
  let above = lineAbove(text, from, floor);
  while (above !== undefined && isCommentAt(text, above + column)) {
    from = above;
    above = lineAbove(text, from, floor);
  }
  return from;
}

function isCommentAt(text: string, offset: number): boolean {
  return text[offset] === '#' && beginsLine(text, offset);
}

/** The offset after the blank lines that begin at an offset. */
export function pastBlankLines(text: string, offset: number): number {
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

/**
 * Removes a record with the comments that belong to it: the comment lines directly above it at its
 * own margin, except those that begin on the file's first line, which are about the file, and the
 * comment lines below it that stand further in than the margin. Of the blank lines above and below,
 * those below go too, or those above where nothing comes after.
 */
export function removeEdits(file: Layout, group: GroupPart, index: number): Edit[] {
  const { text } = file;
  const entry = group.entries[index];
  if (!entry) return [];
  if (group.flow) return removeFromFlow(text, group, index);
  const former = group.entries[index - 1];
  const floor = former ? pastLine(text, former.end) : 0;
  const start = withoutHeader(text, entry.start, ownCommentsFrom(text, entry.start, floor));
  const end = pastOwnComments(text, pastLine(text, entry.end), columnOf(text, entry.start));
  const below = pastBlankLines(text, end);
  const above = fromLinesLike(BLANK, { text, start, floor });
  if (below >= file.close && above > 0) return [{ start: above, end, text: '' }];
  const gap = above < start || start === lineStart(text, 0) || text[floor - 1] === '\n';
  return [{ start, end: gap ? below : end, text: '' }];
}

function withoutHeader(text: string, start: number, from: number): number {
  return from === lineStart(text, 0) ? lineStart(text, start) : from;
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
