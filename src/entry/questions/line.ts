/** A line that is being typed: its text, and where the cursor stands. */

/** `at` counts code units and never stands inside a sign with its marks. */
export interface EditedLine {
  readonly text: string;
  readonly at: number;
}

export const EMPTY_LINE: EditedLine = { text: '', at: 0 };

/** A line with the cursor at its end. */
export function lineAtEnd(text: string): EditedLine {
  return { text, at: text.length };
}

/** The line with a text put in at the cursor; line ends become spaces, other controls are dropped. */
export function insert({ text, at }: EditedLine, typed: string): EditedLine {
  const plain = typed.replace(/[\r\n\t]+/g, ' ').replace(/[\p{Cc}\p{Cs}]/gu, '');
  return { text: text.slice(0, at) + plain + text.slice(at), at: at + plain.length };
}

/** One sign to the left or, with 1, to the right. */
export function move({ text, at }: EditedLine, step: -1 | 1): EditedLine {
  return { text, at: step < 0 ? before(text, at) : after(text, at) };
}

/** The line without the sign before the cursor. */
export function eraseBefore({ text, at }: EditedLine): EditedLine {
  const from = before(text, at);
  return { text: text.slice(0, from) + text.slice(at), at: from };
}

/** The line without the sign at the cursor. */
export function eraseAt({ text, at }: EditedLine): EditedLine {
  return { text: text.slice(0, at) + text.slice(after(text, at)), at };
}

/** The line without the word before the cursor. */
export function eraseWord({ text, at }: EditedLine): EditedLine {
  const kept = text.slice(0, at).replace(/\S*\s*$/, '');
  return { text: kept + text.slice(at), at: kept.length };
}

const SIGNS = new Intl.Segmenter('en', { granularity: 'grapheme' });

function before(text: string, at: number): number {
  const starts = Array.from(SIGNS.segment(text), ({ index }) => index);
  return starts.findLast((start) => start < at) ?? 0;
}

function after(text: string, at: number): number {
  const starts = Array.from(SIGNS.segment(text), ({ index }) => index);
  return starts.find((start) => start > at) ?? text.length;
}
