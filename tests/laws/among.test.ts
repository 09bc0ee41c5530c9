/** Whoever asks for some of the records and facts gets by with them: no figure needs any other. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book, Day } from '../../src/book.ts';
import { addDays } from '../../src/number/date.ts';
import { renderJson } from '../../src/render/json.ts';
import { salesAt, takingsOf } from '../../src/entry/closing/count.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { dayIn, part } from './support/days.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';
import { everyReport } from './support/reports.ts';
import { sparse, sparseFlows } from './support/sparse.ts';

const plans = fc.oneof(
  studioPlan({ breaks: 'some' }),
  studioPlan({ features: ['consigned', 'advances', 'classes', 'meets', 'terms', 'fairs'] }),
);

/** Everything that reports show, and the records behind it. */
function shown(book: Book, asOf: Day): unknown {
  const reports = Object.entries(everyReport(book, asOf));
  return Object.fromEntries(
    reports.map(([name, table]) => {
      const { behind, further } = table;
      const ids = [behind?.(), further?.behind()].map((rows) =>
        rows?.map((row) => [...row].sort()),
      );
      return [name, [renderJson(table), ids]];
    }),
  );
}

/** What the end of each day of each fair looks at. */
function fairDays(book: Book): unknown {
  return [...book.fairs.values()].map((fair) => {
    const at = { fair, day: fair.date };
    const { all, card } = takingsOf(book, at);
    return {
      all,
      card,
      ids: salesAt(book, at)
        .map(({ id }) => id)
        .sort(),
    };
  });
}

describe('a book of which only what is asked for is there', () => {
  it('comes to the same in every report', async () => {
    const property = fc.asyncProperty(plans, part, async (plan, when) => {
      const { book } = await openFiles(filesOf(plan, undefined), growStudio(plan).asOf);
      for (const day of [dayIn(plan, when), dayIn(plan, 1)]) {
        const few = sparse(book);
        for (const each of [day, addDays(day, -41)]) sparseFlows(few, each);
        expect(shown(few, day)).toEqual(shown(book, day));
        expect(fairDays(few)).toEqual(fairDays(book));
      }
    });
    await holds(property, 2);
  });
});
