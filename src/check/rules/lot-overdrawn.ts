/** No more pieces of a lot can be loaded or lost than there are at that stage on that day. */
import type { Book } from '../../book.ts';
import { findEach, keySpot, spot } from '../finding.ts';
import type { Rule, RuleFinding } from '../rule.ts';
import { shortfallsOf } from '../shortfalls.ts';

export const lotOverdrawn: Rule = {
  name: 'lot-overdrawn',
  severity: 'error',
  about: 'More pieces of a lot were loaded or lost than there were at that stage on that day.',
  find: (book, day, unsound) => [
    ...lostBeyondMade(book),
    ...shortfallsOf(['stage'], { book, day, unsound }).map(({ at, what, because }) => {
      const lot = book.pieces.get(what);
      return {
        at,
        message: `lot ${what}: ${because}`,
        hint: 'correct a count, or name the lot that the other pieces are from',
        ...(lot && { related: [{ at: keySpot(lot), message: 'the lot' }] }),
      };
    }),
  ],
};

function lostBeyondMade(book: Book): readonly RuleFinding[] {
  return findEach(book.pieces, (lot, say) => {
    let lost = 0;
    lot.lost?.forEach(({ count }, index) => {
      const left = lot.made - lost;
      lost += count;
      if (count <= left || left < 0) return;
      say({
        at: spot(lot, 'lost', index, 'count'),
        message: `${lot.made} made − ${lot.made - left} lost before = ${left} left, ${count} lost`,
        hint: 'correct a count: no more can be lost than were made',
      });
    });
  });
}
