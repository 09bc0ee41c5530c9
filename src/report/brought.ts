/** What records bring to the figures of a table, also to those that are put addedUp from other rows. */
import { NO_MONEY, type Money } from '../number/money.ts';
import { broughtTogether } from '../reckon/brought.ts';
import type { RecordAmounts, Table } from './table.ts';

/**
 * What each record brings to a figure: they add up to it. Of a sum it is what they bring to the rows that
 * it adds up. Undefined where that isn't known of every part of it.
 */
export function broughtTo(table: Table, key: string, row: number): RecordAmounts {
  const own = table.brought?.[key]?.()[row];
  if (own !== undefined) return own;
  const { plus = [], less = [], of = [] } = table.reckoned?.[row] ?? {};
  if (of.length > 0) return undefined;
  if (plus.length + less.length === 0) return ofNothing(table, key, row);
  const brought = [...plus, ...less].map((at) => broughtTo(table, key, at));
  const known = brought.filter((each) => each !== undefined);
  if (known.length < brought.length) return undefined;
  return broughtTogether(known.slice(0, plus.length), known.slice(plus.length));
}

/** A zero that no record is behind is known whole. */
function ofNothing({ rows, behind }: Table, key: string, row: number): RecordAmounts {
  const isNothing = rows[row]?.[key] === NO_MONEY && (behind?.()?.[row] ?? []).length === 0;
  return isNothing ? new Map<string, Money>() : undefined;
}
