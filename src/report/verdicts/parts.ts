/** What verdicts are made of: figures of the table's own cells, and a few names of many. */
import { decimal, roundTo, type Decimal } from '../../number/decimal.ts';
import type { Column, Row, VerdictFigure } from '../table.ts';

/** A cell of a row, or of the totals, under the title of its column unless another label is given. */
export function figureIn(
  columns: readonly Column[],
  row: Row | undefined,
  { key, label }: { readonly key: string; readonly label?: string },
): VerdictFigure[] {
  const column = columns.find((each) => each.key === key);
  const cell = row?.[key] ?? null;
  return column && cell !== null ? [{ label: label ?? column.title, column, cell }] : [];
}

/** The same of several columns, each under its title. */
export function figuresIn(
  columns: readonly Column[],
  row: Row | undefined,
  keys: readonly string[],
): VerdictFigure[] {
  return keys.flatMap((key) => figureIn(columns, row, { key }));
}

const NAMES_SAID = 3;

/** `Grog, Whiting and Silica`, `Grog; Frit, soft; and 4 more`: names with a comma in them are set apart otherwise. */
export function namesSaid(names: readonly string[]): string {
  const isCut = names.length > NAMES_SAID;
  const shown = isCut ? names.slice(0, NAMES_SAID - 1) : names;
  const items = isCut ? [...shown, `${names.length - shown.length} more`] : shown;
  const hasComma = names.some((name) => name.includes(','));
  const joint = hasComma ? '; ' : ', ';
  const last = hasComma && items.length > 2 ? '; and ' : ' and ';
  return [items.slice(0, -1).join(joint), ...items.slice(-1)]
    .filter((each) => each !== '')
    .join(last);
}

/** Those with the greatest value by which `compare` puts things in order; all that are alike, none of none. */
export function greatest<T>(
  things: readonly T[],
  compare: (one: T, other: T) => number,
): readonly T[] {
  const [first, ...others] = things.toSorted((one, other) => compare(other, one));
  if (first === undefined) return [];
  return [first, ...others.filter((each) => compare(each, first) === 0)];
}

/** A share as tables show it: `9.7%`. */
export function shareText(share: Decimal): string {
  return `${roundTo(share.times(decimal(100)), 1).toFixed(1)}%`;
}
