/** Days in the life of a random studio. */
import fc from 'fast-check';
import type { Day } from '../../../src/book.ts';
import { addDays } from '../../../src/number/date.ts';
import type { StudioPlan } from '../../helpers/random-studio.ts';

/** The first day of every random studio. */
export const FIRST_DAY = '2025-09-20';

/** How far into a studio's life, from 0 to 1; whole numbers, since random floats crowd about 0. */
export const part = fc.integer({ min: 0, max: 1000 }).map((thousandths) => thousandths / 1000);

/** A day of the studio, or shortly before its first or after its last. */
export function dayIn({ days }: StudioPlan, when: number): Day {
  return addDays(FIRST_DAY, Math.round((days + 6) * when) - 3);
}
