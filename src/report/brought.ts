/** What records bring to the figures of a table, also to those that come out of other rows. */
import { grouped } from '../grouping.ts';
import { NO_MONEY, type Money } from '../number/money.ts';
import { isNothing, isSummable, summed, type Summable } from '../number/summable.ts';
import { madeOnce } from '../once.ts';
import { broughtTogether, type Brought } from '../reckon/brought.ts';
import type { Cell, RecordFigures, Row, Table } from './table.ts';

/**
 * What each record brings to a figure: they add up to it. Of a sum it is what they bring to the rows that
 * it adds up. Undefined where that isn't known of every part of it.
 */
export function broughtTo(table: Table, key: string, row: number): RecordFigures {
  const own = table.brought?.[key]?.()[row];
  if (own !== undefined) return own;
  const { plus = [], less = [], of = [] } = table.reckoned?.[row] ?? {};
  if (of.length > 0) return undefined;
  if (plus.length + less.length === 0) return ofNothing(table, key, row);
  const brought = [...plus, ...less].map((at) => broughtTo(table, key, at));
  const known = brought.filter((each) => each !== undefined).map(onlyMoney);
  if (known.length < brought.length) return undefined;
  return broughtTogether(known.slice(0, plus.length), known.slice(plus.length));
}

/** A zero that no record is behind is known whole. */
function ofNothing({ rows, behind }: Table, key: string, row: number): RecordFigures {
  const isNothing = rows[row]?.[key] === NO_MONEY && (behind?.()?.[row] ?? []).length === 0;
  return isNothing ? new Map<string, Money>() : undefined;
}

/** Rows that come out of other rows are of money. */
function onlyMoney(figures: ReadonlyMap<string, Summable>): Brought {
  return new Map(
    [...figures].flatMap(([id, each]) => (typeof each === 'bigint' ? [[id, each]] : [])),
  );
}

/** What records bring to the rows of a table, by the keys of its columns. */
export type BroughtByColumn = NonNullable<Table['brought']>;

/** How things are told by record, and what some of them have under the columns' keys. */
export interface BroughtHow<T> {
  readonly keys: readonly string[];
  readonly idOf: (thing: T) => string;
  readonly cellsOf: (things: readonly T[]) => Row;
}

/**
 * What records bring to rows that each add up things: what a row of just one record's things would have.
 * A row that lacks a figure has nothing to be brought to.
 */
export function broughtByRecord<T>(
  rows: () => readonly (readonly T[])[],
  { keys, idOf, cellsOf }: BroughtHow<T>,
): BroughtByColumn {
  const lines = madeOnce(() =>
    rows().map((things) =>
      [...grouped(things, idOf)].map(([id, own]) => [id, cellsOf(own)] as const),
    ),
  );
  const figures = (key: string): RecordFigures[] =>
    lines().map((line) => new Map(line.flatMap(([id, cells]) => figureUnder(id, cells[key]))));
  return Object.fromEntries(keys.map((key) => [key, madeOnce(() => figures(key))]));
}

/** What records bring to figures that are known part by part; parts of one record are added up. */
export function broughtByParts<T>(
  rows: readonly T[],
  parts: Readonly<Record<string, (row: T) => Iterable<readonly [id: string, part: Summable]>>>,
): BroughtByColumn {
  const columns = Object.entries(parts).map(([key, partsOf]) => {
    const figures = madeOnce(() => rows.map((row) => broughtInAll(partsOf(row))));
    return [key, figures] as const;
  });
  return Object.fromEntries(columns);
}

function broughtInAll(parts: Iterable<readonly [string, Summable]>): ReadonlyMap<string, Summable> {
  const sums = new Map<string, Summable>();
  for (const [id, part] of parts) {
    const before = sums.get(id);
    sums.set(id, before === undefined ? part : summed(before, part));
  }
  return sums;
}

function figureUnder(id: string, cell: Cell = null): [string, Summable][] {
  return isSummable(cell) && !isNothing(cell) ? [[id, cell]] : [];
}
