/** What all rows of a plan share: their day, and figures. */
import { dayFromNumber } from '../../number/date.ts';
import { decimal, type Decimal } from '../../number/decimal.ts';
import { compareTexts } from '../../text-order.ts';
import type { Row } from '../table.ts';

/** A figure of the plan as a decimal. */
export function plain(value: number): Decimal {
  return decimal(value.toFixed(4));
}

/** Rows in the order of their days. */
export function byDay(one: Row, other: Row): number {
  return compareTexts(String(one['day']), String(other['day']));
}

/** A row of a day. */
export function dated(day: number, row: Row): Row {
  return { day: dayFromNumber(day), ...row };
}
