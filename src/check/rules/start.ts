/** What is dated before the book starts moves no stock. */
import { recordsDuring } from '../../among.ts';
import type { Counted, Day, Kind, NamedBook, Studio } from '../../book.ts';
import { addDays } from '../../number/date.ts';
import { isBeforeStart, isOpening } from '../../reckon/stock/opening.ts';
import { NOUN, spot, type RuleFinding, type Say, type Sited } from '../finding.ts';
import { each, over, type Rule } from '../rule.ts';

/** Purchases and sales count as money all the same; a count may well be of before. */
const MOVING = ['reclaimed', 'mixed', 'firings', 'used', 'consigned'] as const;

const beforeTheStart: Rule = {
  name: 'before-the-start',
  severity: 'warning',
  about: 'A record is dated before the book starts, and would move stock if it were later.',
  looks: [
    each('studio', closedBefore),
    each(MOVING, (record, { book, say }, kind) => {
      if (isBeforeStart(book, record.date)) say(tooSoon(book, kind, record));
    }),
    each('counted', (counted, { book, say }) => {
      if (isBeforeStart(book, counted.date) && !isAtTheOpening(counted))
        say(tooSoon(book, 'counted', counted));
    }),
    over({ pieces: 'all', counted: { having: 'cost' } }, (book) => {
      const { starts } = book.studio;
      if (starts === undefined) return [];
      const opened = lotsCounted(book.counted.values());
      const early = [...recordsDuring(book.pieces, { to: addDays(starts, -1) })];
      return early
        .filter(({ id, date }) => date < starts && !opened.has(id))
        .map((lot) => tooSoon(book, 'pieces', lot));
    }),
  ],
};

/** A count with a cost has a rule of its own. */
function isAtTheOpening({ materials = [], pieces = [] }: Counted): boolean {
  return [...materials, ...pieces].some(isOpening);
}

/** Lots of which something was there when the book started. */
function lotsCounted(counts: Iterable<Counted>): ReadonlySet<string | undefined> {
  const lots = [...counts].flatMap(({ pieces = [] }) => pieces.filter(isOpening));
  return new Set(lots.map(({ lot }) => lot));
}

function tooSoon(
  { studio }: Pick<NamedBook, 'studio'>,
  kind: Kind,
  record: Sited & { readonly date: Day },
): RuleFinding {
  return {
    at: spot(record, 'date'),
    message: `this ${NOUN[kind]} is of ${record.date}, before the book starts (${studio.starts ?? ''}): it moves no stock`,
    hint: kind === 'pieces' ? OF_LOTS : 'leave it as it is, or correct the date',
  };
}

const OF_LOTS =
  'count what was left of it on that day, with its cost and this lot; or correct the date';

/** Figures that went out for days before the start had no cost of what was sold. */
function closedBefore(studio: Studio, { say }: { readonly say: Say }): void {
  const { starts, closedThrough, file } = studio;
  if (starts === undefined || closedThrough === undefined) return;
  if (starts <= addDays(closedThrough, 1)) return;
  say({
    at: { file, path: ['starts'] },
    message: `the book starts on ${starts}, after days that are closed (through ${closedThrough}): their cost of goods is not known`,
    hint: 'correct one of the two dates, or leave them where what was filed had no cost of goods from this book',
  });
}

/** The rules on the start of the book. */
export const START_RULES: readonly Rule[] = [beforeTheStart];
