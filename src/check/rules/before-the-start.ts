/** What is dated before the day on which the book starts moves no stock. */
import type { Book } from '../../book.ts';
import { addDays } from '../../number/date.ts';
import { isBeforeStart, isOpening, openedLots } from '../../reckon/opening.ts';
import { NOUN, findEach, spot, type Sited } from '../finding.ts';
import type { Rule, RuleFinding } from '../rule.ts';

export const beforeTheStart: Rule = {
  name: 'before-the-start',
  severity: 'warning',
  about: 'A record is dated before the book starts, and would move stock if it were later.',
  find: (book) => [
    ...closedBefore(book),
    ...KINDS.flatMap((kind) =>
      findEach<Sited & { readonly date: string }>(book[kind], (record, say) => {
        if (!isBeforeStart(book, record.date) || isAtTheOpening(book, record.id)) return;
        say({
          at: spot(record, 'date'),
          message: `this ${NOUN[kind]} is of ${record.date}, before the book starts (${book.studio.starts ?? ''}): it moves no stock`,
          hint: HINTS[kind] ?? 'leave it as it is, or correct the date',
        });
      }),
    ),
  ],
};

/** Purchases and sales count as money all the same; a count may well be of before. */
const KINDS = ['reclaimed', 'mixed', 'pieces', 'firings', 'used', 'consigned', 'counted'] as const;

const HINTS: Readonly<Partial<Record<(typeof KINDS)[number], string>>> = {
  pieces: 'count what was left of it on that day, with its cost and this lot; or correct the date',
};

/** Lots that are counted when the book starts, and counts with a cost, which have a rule of their own. */
function isAtTheOpening(book: Book, id: string): boolean {
  const { materials = [], pieces = [] } = book.counted.get(id) ?? {};
  return openedLots(book).has(id) || [...materials, ...pieces].some(isOpening);
}

/** Figures that went out for days before the start had no cost of what was sold. */
function closedBefore({ studio }: Book): readonly RuleFinding[] {
  const { starts, closedThrough, file } = studio;
  if (starts === undefined || closedThrough === undefined) return [];
  if (starts <= addDays(closedThrough, 1)) return [];
  return [
    {
      at: { file, path: ['starts'] },
      message: `the book starts on ${starts}, after days that are closed (through ${closedThrough}): their cost of goods is not known`,
      hint: 'correct one of the two dates, or leave them where what was filed had no cost of goods from this book',
    },
  ];
}
