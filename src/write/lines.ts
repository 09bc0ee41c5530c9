/** Lines, columns and edits of a text whose bytes must stay as they are outside the edits. */

/** The text from `start` to before `end` is to become `text`. */
export interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** The text with the edits made; they may come in any order but must not overlap. */
export function applyEdits(text: string, edits: readonly Edit[]): string {
  const sorted = edits.toSorted((a, b) => a.start - b.start || a.end - b.end);
  let done = 0;
  const pieces = sorted.map((edit) => {
    const before = text.slice(done, edit.start);
    done = edit.end;
    return before + edit.text;
  });
  return pieces.join('') + text.slice(done);
}

/** CRLF where the file's first line ends so, else LF. */
export function lineBreakOf(text: string): '\r\n' | '\n' {
  const at = text.indexOf('\n');
  return at > 0 && text[at - 1] === '\r' ? '\r\n' : '\n';
}

/** Offset of the first character of the offset's line. */
export function lineStart(text: string, offset: number): number {
  return offset === 0 ? 0 : text.lastIndexOf('\n', offset - 1) + 1;
}

/** Where the line above the one that begins at `start` begins; undefined where it would be before `floor`. */
export function lineAbove(text: string, start: number, floor: number): number | undefined {
  const above = start > 0 ? lineStart(text, start - 1) : start;
  return above < start && above >= floor ? above : undefined;
}

/** Offset after the line end of the offset's line, or the end of the text. */
export function nextLine(text: string, offset: number): number {
  const at = text.indexOf('\n', offset);
  return at < 0 ? text.length : at + 1;
}

/**
 * Offset after the last line of something that ends at `end`, with a comment behind it: `end`
 * itself where that is already past a line end, as after a block scalar.
 */
export function pastLine(text: string, end: number): number {
  return text[end - 1] === '\n' ? end : nextLine(text, end);
}

/** The column of an offset, counted from 0. */
export function columnOf(text: string, offset: number): number {
  return offset - lineStart(text, offset);
}

/** The blanks that the offset's line begins with. */
export function indentOf(text: string, offset: number): string {
  const start = lineStart(text, offset);
  return /^[ \t]*/.exec(text.slice(start, nextLine(text, start)))?.[0] ?? '';
}

/** Whether nothing but blanks stands before the offset on its line. */
export function beginsLine(text: string, offset: number): boolean {
  return text.slice(lineStart(text, offset), offset).trim() === '';
}

/** Whether nothing but blanks and a comment stands after the offset on its line. */
export function endsContentLine(text: string, offset: number): boolean {
  return text[offset - 1] === '\n' || /^[ \t]*(?:[ \t]#.*)?\r?$/.test(lineRest(text, offset));
}

/** What stands on the offset's line from the offset on, without the line feed. */
export function lineRest(text: string, offset: number): string {
  const at = text.indexOf('\n', offset);
  return text.slice(offset, at < 0 ? text.length : at);
}

/** Whether a line break stands between two offsets. */
export function breaksBetween(text: string, from: number, to: number): boolean {
  return text.slice(from, to).includes('\n');
}

/** Whole lines as one text, each ended by the line break. */
export function joinLines(lines: readonly string[], lineBreak: string): string {
  return lines.map((line) => line + lineBreak).join('');
}

/**
 * Puts whole lines at an offset where a line begins, or at the end of a text whose last line has no
 * line end: it gets one first.
 */
export function insertLines(text: string, offset: number, lines: readonly string[]): Edit {
  const lineBreak = lineBreakOf(text);
  const open = offset === text.length && offset > lineStart(text, offset);
  const start = open ? lineBreak : '';
  return { start: offset, end: offset, text: start + joinLines(lines, lineBreak) };
}

/** The offset before the line end that an offset is just past; the offset itself elsewhere. */
export function withoutLineBreak(text: string, end: number): number {
  if (text[end - 1] !== '\n') return end;
  return text[end - 2] === '\r' ? end - 2 : end - 1;
}
