/** Lines and columns of a text: where an offset lies, and the source line for the caret. */
import type { Place } from '../problem.ts';

/** A stretch of a text; `end` is behind it. */
export interface TextSpan {
  readonly start: number;
  readonly end: number;
}

/**
 * The place of a span in a file's text (without byte order mark): line and column from 1, in UTF-16
 * code units, a tab counting one. The width ends with the line and is at least 1.
 */
export function placeInText(file: string, text: string, span: TextSpan): Place {
  const start = Math.min(span.start, text.length);
  const line = lineNumber(text, start);
  const lineStart = lineStarts(text)[line - 1] ?? 0;
  const source = lineAt(text, lineStart);
  // Between the two characters of a CRLF there is no column: the return counts as the line's end.
  const column = Math.min(start - lineStart, source.length);
  const width = Math.min(span.end - start, source.length - column);
  return { file, line, column: column + 1, width: Math.max(1, width), source };
}

/** The line that begins at an offset, without its line feed and return. */
function lineAt(text: string, lineStart: number): string {
  const lineFeed = text.indexOf('\n', lineStart);
  const end = lineFeed < 0 ? text.length : lineFeed;
  return text.slice(lineStart, text[end - 1] === '\r' ? Math.max(lineStart, end - 1) : end);
}

/** The place of a whole file or folder of which no text is known. */
export function wholeFile(file: string): Place {
  return { file, line: 1, column: 1, width: 1, source: '' };
}

/** The number of the line on which an offset lies, by halving. */
export function lineNumber(text: string, offset: number): number {
  const starts = lineStarts(text);
  let low = 0;
  let high = starts.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((starts[middle] ?? 0) <= offset) low = middle;
    else high = middle;
  }
  return low + 1;
}

// The findings of one file come together, so the lines of one text are kept.
let countedText = '';
let starts: readonly number[] = [0];

function lineStarts(text: string): readonly number[] {
  if (text === countedText) return starts;
  const found = [0];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) found.push(at + 1);
  countedText = text;
  starts = found;
  return found;
}
