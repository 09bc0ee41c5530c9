/** What was found of one state of a studio, and how long it holds. */
import type { Day } from '../book.ts';
import type { Finding } from '../problem.ts';
import type { Checked, Taken } from './check.ts';
import type { UnnamedGlazes } from './unnamed-glazes.ts';

/** All that is wrong in a state. */
export interface Found {
  /** A fingerprint of all that was read. */
  readonly content: string;
  readonly asOf: Day;
  /** From this day on nothing is found or not found by the mere passing of time. */
  readonly settled: Day;
  /** Whether no id stands twice. */
  readonly isUnique: boolean;
  readonly findings: readonly Finding[];
  readonly unnamed: UnnamedGlazes;
}

/** A state that was looked at. */
export interface Judged extends Omit<Checked, 'unnamed'> {
  readonly taken: Taken;
  readonly found: Found;
}

/** Whether what was found of a state holds on a day. */
export function holdsOn({ asOf, settled }: Found, day: Day): boolean {
  return day === asOf || (settled <= asOf && settled <= day);
}
