/** Ware that left the studio must have been finished before. */
import type { Rule } from '../rule.ts';
import { shortfallsOf } from '../shortfalls.ts';

export const soldMoreThanFinished: Rule = {
  name: 'sold-more-than-finished',
  severity: 'error',
  about: 'More finished ware was sold, sent to a gallery or given away than there was.',
  find: (book, day, unsound) =>
    shortfallsOf(['finished'], { book, day, unsound }).map(({ at, what, because }) => ({
      at,
      message: `not enough of ${what}: ${because}`,
      hint: 'correct the count, grade or date, add the lot or firing that is missing, or count what was there',
    })),
};
