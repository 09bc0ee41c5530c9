/** The whole check in one step. */
import { judge, takeIn, type ChangedReading, type Checked } from '../../src/check/check.ts';

/** Checks all of a studio as of a day: schemas, ids, then the rules. */
export function checkStudio(reading: ChangedReading, day: string): Checked {
  return judge(takeIn(reading), { day });
}
