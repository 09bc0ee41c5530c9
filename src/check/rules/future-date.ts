/** What is dated after the day of the check is mostly a slip in the year. */
import { EVENT_KINDS, type Day, type Paid, type Studio } from '../../book.ts';
import type { Spot } from '../../problem.ts';
import { findEach, type RuleFinding, type Sited, spot } from '../finding.ts';
import { onDay, type ReachedBook, type Rule } from '../rule.ts';

// A fair is put down when its booth is paid, which may be months before.
const DONE = EVENT_KINDS.filter((kind) => kind !== 'fairs');

const IS_LATER = { later: true } as const;

const LATER = {
  bought: IS_LATER,
  reclaimed: IS_LATER,
  mixed: IS_LATER,
  pieces: IS_LATER,
  firings: IS_LATER,
  used: IS_LATER,
  counted: IS_LATER,
  sales: IS_LATER,
  advances: IS_LATER,
  consigned: IS_LATER,
  spent: IS_LATER,
  tests: IS_LATER,
  filed: IS_LATER,
} as const;

type LaterBook = ReachedBook<typeof LATER>;

export const futureDate: Rule = {
  name: 'future-date',
  severity: 'warning',
  about: 'A record is dated after the day of the check, so no figure counts it yet.',
  looks: [
    onDay(LATER, (book, { day }) => [
      ...closedAhead(book.studio, day),
      ...DONE.flatMap((kind) =>
        findEach<Dated>(book[kind], (record, say) => {
          if (record.date > day) say(ahead(spot(record, 'date'), record.date, day));
        }),
      ),
      ...paidAhead(book, day),
      ...missingPaidAhead(book, day),
      ...leftAhead(book, day),
      ...refundedAhead(book, day),
      ...unloadedAhead(book, day),
    ]),
  ],
};

interface Dated extends Sited {
  readonly date: Day;
}

interface Payable extends Sited {
  readonly paid?: Paid;
}

function ahead(at: Spot, date: Day, day: Day): RuleFinding {
  return {
    at,
    message: `${date} is after ${day}`,
    hint: 'correct the date; nothing counts before its day has come',
  };
}

function closedAhead(studio: Studio, day: Day): readonly RuleFinding[] {
  const { closedThrough, starts, file } = studio;
  const days = { 'closed-through': closedThrough, starts };
  return Object.entries(days).flatMap(([key, of]) =>
    of === undefined || of <= day ? [] : [ahead({ file, path: [key] }, of, day)],
  );
}

function paidAhead(book: LaterBook, day: Day): readonly RuleFinding[] {
  return (['bought', 'sales', 'spent'] as const).flatMap((kind) =>
    findEach<Payable>(book[kind], (record, say) => {
      const { paid } = record;
      if (paid === undefined || paid === 'no' || paid <= day) return;
      say(ahead(spot(record, 'paid'), paid, day));
    }),
  );
}

function missingPaidAhead(book: LaterBook, day: Day): readonly RuleFinding[] {
  return findEach(book.consigned, (consigned, say) => {
    consigned.missing?.forEach(({ paid = 'no' }, index) => {
      if (paid !== 'no' && paid > day)
        say(ahead(spot(consigned, 'missing', index, 'paid'), paid, day));
    });
  });
}

function leftAhead(book: LaterBook, day: Day): readonly RuleFinding[] {
  return findEach(book.pieces, (lot, say) => {
    for (const list of ['lost', 'gone'] as const)
      lot[list]?.forEach(({ date }, index) => {
        if (date > day) say(ahead(spot(lot, list, index, 'date'), date, day));
      });
  });
}

function refundedAhead(book: LaterBook, day: Day): readonly RuleFinding[] {
  return findEach(book.advances, (advance, say) => {
    advance.refunded?.forEach(({ date }, index) => {
      if (date > day) say(ahead(spot(advance, 'refunded', index, 'date'), date, day));
    });
  });
}

function unloadedAhead(book: LaterBook, day: Day): readonly RuleFinding[] {
  return findEach(book.firings, (firing, say) => {
    const { date, unloaded = date } = firing;
    if (unloaded > day && date <= day) say(ahead(spot(firing, 'unloaded'), unloaded, day));
  });
}
