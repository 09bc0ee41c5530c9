/** A gallery can only sell or give back what was left with it. */
import type { Rule } from '../rule.ts';
import { shortfallsOf } from '../shortfalls.ts';

export const consignedOverdrawn: Rule = {
  name: 'consigned-overdrawn',
  severity: 'error',
  about: 'A gallery sold, gave back or misses more than was left with it.',
  find: (book, day, unsound) =>
    shortfallsOf(['consigned'], { book, day, unsound }).map(({ at, what, because }) => ({
      at,
      message: `not enough of ${what}: ${because}`,
      hint: 'correct the count or grade, or add what was sent there before',
    })),
};
