/** What lays out a file writes with: the text so far, and the places of what stands in it. */
import type { RandomSource } from './random-source.js';
import type { Tree } from './layout-data.ts';

export type Path = readonly (string | number)[];

export interface LaidScalar {
  readonly path: Path;
  readonly text: string;
  readonly style: Style;
  readonly start: number;
  readonly end: number;
}

/** A field, item or record, from its key or dash to the end of its value. */
export interface LaidEntry {
  readonly path: Path;
  readonly start: number;
  readonly end: number;
  /** Whether it stands inside brackets. */
  readonly inFlow: boolean;
}

export interface Laid {
  readonly text: string;
  readonly tree: Map<string, Tree>;
  readonly scalars: readonly LaidScalar[];
  readonly entries: readonly LaidEntry[];
  readonly comments: readonly { readonly text: string; readonly at: number }[];
}

export type Style = 'plain' | 'folded-plain' | 'single' | 'double' | 'literal' | 'folded' | 'empty';

export interface Pen {
  readonly random: RandomSource;
  readonly lineBreak: string;
  /** Spaces of one level. */
  readonly step: number;
  /** How often comments and blank lines come, from 0 to 1. */
  readonly chatty: number;
  readonly scalars: LaidScalar[];
  readonly entries: LaidEntry[];
  readonly comments: { text: string; at: number }[];
  out: string;
  /** A block scalar that keeps blank lines stands directly above. */
  keeps: boolean;
  /** A block scalar stands directly above: a comment further in would be part of it. */
  belowBlock: boolean;
}

/** Where a value goes: its path, and the column of the entry that holds it. */
export interface Spot {
  readonly path: Path;
  readonly column: number;
}

export function newLine(pen: Pen): void {
  pen.out += pen.lineBreak;
}

export function putComment(pen: Pen): void {
  const text = `# remark ${pen.comments.length}${pen.random.pick(['', ': "so', " it's - {", ' a: b'])}`;
  pen.comments.push({ text, at: pen.out.length });
  pen.out += text;
}

/** Perhaps blanks or a comment, then the line end. */
export function endLine(pen: Pen): void {
  if (pen.random.chance(pen.chatty * 0.5)) {
    pen.out += pen.random.pick([' ', '   ', '\t']);
    putComment(pen);
  } else if (pen.random.chance(pen.chatty * 0.1)) pen.out += ' ';
  newLine(pen);
}

/** Blank and comment lines before an entry at a column, or after the last one. */
export function interlude(pen: Pen, column: number, last = false): void {
  if (!pen.random.chance(pen.chatty)) return;
  const lines = pen.random.int(1, 3);
  for (let line = 0; line < lines; line++)
    if (pen.random.chance(0.6)) commentLine(pen, column, last);
    else if (!pen.keeps) blankLine(pen);
}

function blankLine(pen: Pen): void {
  pen.out += pen.random.chance(0.1) && !pen.belowBlock ? '  ' : '';
  newLine(pen);
}

function commentLine(pen: Pen, column: number, last: boolean): void {
  const columns = pen.belowBlock || last ? [column] : [column, column, column + 2, 0];
  pen.out += ' '.repeat(pen.random.pick(columns));
  putComment(pen);
  newLine(pen);
  pen.keeps = false;
  pen.belowBlock = false;
}
