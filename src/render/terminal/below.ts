/** What of a row doesn't fit its line, said below it: each value with its head, what adds up as a sum. */
import type { AddedUp } from '../../report/table.ts';
import { isFigure, type ShownColumn } from '../shown.ts';
import { displayWidth, wrap } from './width.ts';

const STEP = '  ';
const DOT = ' · ';

/** Which columns are said, and which of them add up to what. */
export interface SaidBelow {
  readonly columns: readonly ShownColumn[];
  readonly sums: readonly AddedUp[];
  readonly width: number;
}

/** The lines below a row, indented; `textOf` gives the row's text of a column. What is zero or missing goes without saying. */
export function linesBelow(
  { columns, sums, width }: SaidBelow,
  wholeTextOf: (column: ShownColumn) => string,
): readonly string[] {
  const textOf = (shown: ShownColumn): string => {
    const text = wholeTextOf(shown);
    return isFigure(shown.column) && ZERO_FIGURE.test(text) ? '' : text;
  };
  const byKey = new Map(columns.map((shown) => [shown.column.key, shown]));
  const parts = new Set<string>();
  const added = sums.flatMap((sum) => {
    const terms = termsOf(sum, byKey, textOf);
    for (const key of [...sum.plus, ...(sum.less ?? [])]) if (byKey.has(key)) parts.add(key);
    return terms.length === 0 ? [] : [terms];
  });
  const units = new Set(columns.flatMap(({ column }) => column.unitFrom ?? []));
  const said = columns
    .filter(({ column }) => !parts.has(column.key) && !units.has(column.key))
    .map((shown) => valueWithHead(shown, byKey, textOf))
    .filter((text) => text !== '');
  return laidOut([...said.map((text) => [text]), ...added], width - STEP.length);
}

/** `Takings 412.00`, `- Fees 12.20`: what a sum is made of. */
function termsOf(
  { plus, less = [] }: AddedUp,
  byKey: ReadonlyMap<string, ShownColumn>,
  textOf: (column: ShownColumn) => string,
): string[] {
  const terms = [...plus, ...less].flatMap((key) => {
    const shown = byKey.get(key);
    const text = shown ? textOf(shown) : '';
    if (!shown || text === '') return [];
    return [{ text: `${shown.head} ${text}`, sign: less.includes(key) ? '-' : '+' }];
  });
  return terms.map(({ text, sign }, at) => (at === 0 && sign === '+' ? text : `${sign} ${text}`));
}

const ZERO_FIGURE = /^-?0(?:\.0+)?%?$/;

/** A value with its head; a name and a mark speak for themselves. */
function valueWithHead(
  shown: ShownColumn,
  byKey: ReadonlyMap<string, ShownColumn>,
  textOf: (column: ShownColumn) => string,
): string {
  const { column, head } = shown;
  const text = textOf(shown);
  if (text === '' || column.isName === true) return text;
  if (column.type === 'flag') return head;
  const unit = byKey.get(column.unitFrom ?? '');
  return [head, text, unit ? textOf(unit) : ''].filter((part) => part !== '').join(' ');
}

/** One after the other in as few lines as they fit; one that is wider than a line is broken. */
function laidOut(items: readonly (readonly string[])[], width: number): string[] {
  const lines: string[] = [];
  const put = (text: string, joint: string): void => {
    const last = lines.at(-1);
    if (last !== undefined && displayWidth(last + joint + text) <= width)
      lines[lines.length - 1] = last + joint + text;
    else lines.push(...wrap(text, { width: Math.max(1, width) }));
  };
  for (const terms of items)
    terms.forEach((term, at) => {
      put(term, at === 0 ? DOT : ' ');
    });
  return lines.map((line) => STEP + line);
}
