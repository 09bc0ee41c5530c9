/** The patterns that parts of a bar are told apart by where colours can't be: hatched, dotted, crossed. */
import { type Markup, markup } from '../markup.ts';

/** A pattern, and the class of what is filled with it. */
interface Pattern {
  readonly id: string;
  readonly kind: string;
  /** Class of its lines: their colour. */
  readonly lines: string;
  /** Lines in a square of eight pixels. */
  readonly path: string;
}

const UP = 'M-2 2 2-2M0 8 8 0M6 10 10 6';
const DOWN = 'M-2 6 2 10M0 0 8 8M6-2 10 2';

export const PATTERNS: readonly Pattern[] = [
  { id: 'hatch-up', kind: 'part-2', lines: 'glaze', path: UP },
  { id: 'dots', kind: 'part-3', lines: 'glaze', path: 'M1 2h2M5 6h2' },
  { id: 'hatch-down', kind: 'part-4', lines: 'clay', path: DOWN },
  { id: 'level', kind: 'part-6', lines: 'glaze', path: 'M0 2h8M0 6h8' },
  { id: 'cross', kind: 'part-7', lines: 'clay', path: 'M0 4h8M4 0v8' },
  { id: 'pale', kind: 'against', lines: 'pale', path: UP },
];

/** The patterns as a page has them once; they take no room. */
export function patternsMarkup(): Markup {
  const all = PATTERNS.map(
    ({ id, lines, path }) =>
      markup`<pattern id="${id}" width="8" height="8" patternUnits="userSpaceOnUse"><rect width="8" height="8"/><path class="${lines}" d="${path}"/></pattern>`,
  );
  return markup`<svg class="patterns pattern" aria-hidden="true"><defs>${all}</defs></svg>`;
}
