/** The whole check in one step. */
import { judge, type Checked } from '../../src/check/check.ts';
import { type ChangedReading, takeIn } from '../../src/check/taken.ts';

/** Checks all of a studio as of a day: schemas, ids, then the rules. */
export function checkStudio(reading: ChangedReading, day: string): Checked {
  return judge(takeIn(reading), { day });
}
