/** How help is laid out: rows of two columns, and command lines that a shell takes as they stand. */
import { wrap } from '../render/terminal/width.ts';

/** What stands on the left, and what is said of it. */
export type LeftAndRight = readonly [left: string, right: string];

/** Longer lines than this are hard to follow. */
const WIDEST = 100;
/** A longer left side has a line of its own. */
const WIDEST_LEFT = 24;
const BETWEEN = '  ';

/** Rows of two columns, the right one wrapped within a terminal of that width. */
export function twoColumns(pairs: readonly LeftAndRight[], width: number): readonly string[] {
  const lefts = pairs.map(([left]) => left.length).filter((length) => length <= WIDEST_LEFT);
  const column = Math.max(0, ...lefts);
  const room = Math.max(Math.min(width, WIDEST) - column - 2 * BETWEEN.length, WIDEST_LEFT);
  return pairs.flatMap(([left, right]) => {
    const isLong = left.length > column;
    const lines = wrap(right, { width: room }).map((line, index) => {
      const side = index === 0 && !isLong ? left : '';
      return BETWEEN + side.padEnd(column) + BETWEEN + line;
    });
    return isLong ? [BETWEEN + left, ...lines] : lines;
  });
}

/** A command line, parted before its options where it is too long, as a shell goes on with it. */
export function exampleLines(example: string, width: number): readonly string[] {
  const lines: string[] = [];
  let line = BETWEEN;
  for (const part of example.split(/ (?=--[a-z])/)) {
    const isFirst = line.trim() === '';
    if (isFirst || `${line} ${part} \\`.length <= width) line += isFirst ? part : ` ${part}`;
    else {
      lines.push(`${line} \\`);
      line = BETWEEN + BETWEEN + part;
    }
  }
  return [...lines, line];
}

/** The text of lines. */
export function joinedLines(lines: readonly string[]): string {
  return `${lines.join('\n')}\n`;
}
