/** Ware that left the studio must have been finished before. */
import { short, type Rule } from '../rule.ts';
import { becauseOf } from '../shortage-words.ts';

export const soldMoreThanFinished: Rule = {
  name: 'sold-more-than-finished',
  severity: 'error',
  about: 'More finished ware was sold, sent to a gallery or given away than there was.',
  looks: [
    short(({ of }, book) =>
      of('finished').map((shortfall) => ({
        at: shortfall.at,
        message: `not enough of ${shortfall.what}: ${becauseOf(book, shortfall)}`,
        hint: 'correct the count, grade or date, add the lot or firing that is missing, or count what was there',
      })),
    ),
  ],
};
