/** A gallery can only sell or give back what was left with it. */
import { short, type Rule } from '../rule.ts';
import { becauseOf } from '../shortage-words.ts';

export const consignedOverdrawn: Rule = {
  name: 'consigned-overdrawn',
  severity: 'error',
  about: 'A gallery sold, gave back or misses more than was left with it.',
  looks: [
    short(({ of }, book) =>
      of('consigned').map((shortfall) => ({
        at: shortfall.at,
        message: `not enough of ${shortfall.what}: ${becauseOf(book, shortfall)}`,
        hint: 'correct the count or grade, or add what was sent there before',
      })),
    ),
  ],
};
