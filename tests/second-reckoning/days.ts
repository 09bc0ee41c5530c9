/** Days as the calendar of the language has them. */
import type { Day, Weekday } from '../../src/definitions.ts';

const LONG = 86_400_000;
const NAMES = ['sun', 'mon', 'tue', 'wed', 'thu', 'fri', 'sat'] as const;

/** The day so many days later. */
export function daysAfter(day: Day, days: number): Day {
  return new Date(Date.parse(`${day}T00:00:00Z`) + days * LONG).toISOString().slice(0, 10);
}

export function weekday(day: Day): Weekday {
  return NAMES[new Date(`${day}T00:00:00Z`).getUTCDay()] ?? 'mon';
}

/** Below zero where the first text comes first by its code units. */
export function byCodeUnits(a: string, b: string): number {
  return a < b ? -1 : Number(a > b);
}
