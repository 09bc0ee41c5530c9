/** How help is laid out: rows of two columns, and command lines that a shell takes as they stand. */
import { wrap } from '../render/width.ts';

/** What stands on the left, and what is said of it. */
export type Pair = readonly [left: string, right: string];

/** Longer lines than this are hard to follow. */
const WIDEST = 100;
/** A longer left side has a line of its own. */
const WIDEST_LEFT = 24;
const GAP = '  ';

/** Rows of two columns, the right one wrapped within a terminal of that width. */
export function twoColumns(pairs: readonly Pair[], width: number): readonly string[] {
  const lefts = pairs.map(([left]) => left.length).filter((length) => length <= WIDEST_LEFT);
  const column = Math.max(0, ...lefts);
  const room = Math.max(Math.min(width, WIDEST) - column - 2 * GAP.length, WIDEST_LEFT);
  return pairs.flatMap(([left, right]) => {
    const isLong = left.length > column;
    const lines = wrap(right, { width: room }).map((line, index) => {
      const side = index === 0 && !isLong ? left : '';
      return GAP + side.padEnd(column) + GAP + line;
    });
    return isLong ? [GAP + left, ...lines] : lines;
  });
}

/** A command line, parted before its options where it is too long, as a shell goes on with it. */
export function exampleLines(example: string, width: number): readonly string[] {
  const lines: string[] = [];
  let line = GAP;
  for (const part of example.split(/ (?=--[a-z])/)) {
    const isFirst = line.trim() === '';
    if (isFirst || `${line} ${part} \\`.length <= width) line += isFirst ? part : ` ${part}`;
    else {
      lines.push(`${line} \\`);
      line = GAP + GAP + part;
    }
  }
  return [...lines, line];
}

/** The text of lines. */
export function joinedLines(lines: readonly string[]): string {
  return `${lines.join('\n')}\n`;
}
