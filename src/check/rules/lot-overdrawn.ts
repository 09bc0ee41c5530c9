/** No more pieces of a lot can be loaded or lost than there are at that stage on that day. */
import type { Spot } from '../../problem.ts';
import type { Shortfall } from '../../reckon/stock.ts';
import { keySpot } from '../finding.ts';
import { short, type Rule } from '../rule.ts';
import { becauseOf } from '../shortage-words.ts';

export const lotOverdrawn: Rule = {
  name: 'lot-overdrawn',
  severity: 'error',
  about: 'More pieces of a lot were loaded or lost than there were at that stage on that day.',
  looks: [
    short(({ of }, book) =>
      firstLosses(of('stage')).map((shortfall) => {
        const { at, what } = shortfall;
        const lot = book.pieces.get(what);
        return {
          at,
          message: `lot ${what}: ${becauseOf(book, shortfall)}`,
          hint: isLoss(at) ? LOST : LOADED,
          ...(lot && { related: [{ at: keySpot(lot), message: 'the lot' }] }),
        };
      }),
    ),
  ],
};

const LOADED = 'correct a count, or name the lot that the other pieces are from';
const LOST = 'correct a count or a day; finished ware that broke goes under gone, as broken';

/** Once more of a lot is lost than there was, every later loss is too much: the first is where to look. */
function firstLosses(shortfalls: readonly Shortfall[]): readonly Shortfall[] {
  const seen = new Set<string>();
  return shortfalls.filter(({ at, what }) => {
    if (!isLoss(at)) return true;
    const isFirst = !seen.has(what);
    seen.add(what);
    return isFirst;
  });
}

function isLoss({ path }: Spot): boolean {
  return path[1] === 'lost';
}
