/** What happens after a day changes no figure of that day. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book, Day, Lot, Paid } from '../../src/book.ts';
import { EVENT_KINDS } from '../../src/book.ts';
import { addDays } from '../../src/number/date.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { dayIn, part } from './support/days.ts';
import { differing } from './support/differing.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';
import { everyJson } from './support/reports.ts';

/** A fair is put down before its day, so that what is paid for it can name it. */
const HAPPENING = EVENT_KINDS.filter((kind) => kind !== 'fairs');

/** The book as it was at the end of a day: without later records, losses, gifts and payments. */
function cutAt(book: Book, day: Day): Book {
  const kinds = HAPPENING.map((kind) => {
    const records = [...(book[kind] as ReadonlyMap<string, { date: Day }>)];
    return [kind, new Map(records.filter(([, { date }]) => date <= day))];
  });
  const cut = {
    ...book,
    ...(Object.fromEntries(kinds) as Pick<Book, (typeof HAPPENING)[number]>),
  };
  const pieces = [...cut.pieces].map(([id, lot]) => [id, lotAt(lot, day)] as const);
  const sales = [...cut.sales].map(([id, sale]) => [id, paidAt(sale, day)] as const);
  const consigned = [...cut.consigned].map(([id, each]) => {
    const missing = each.missing?.map((line) => paidAt(line, day));
    return [id, missing ? { ...each, missing } : each] as const;
  });
  const at = { pieces: new Map(pieces), sales: new Map(sales), consigned: new Map(consigned) };
  return { ...cut, ...at };
}

function lotAt(lot: Lot, day: Day): Lot {
  const { lost = [], gone = [] } = lot;
  return {
    ...lot,
    lost: lost.filter(({ date }) => date <= day),
    gone: gone.filter(({ date }) => date <= day),
  };
}

function paidAt<T extends { readonly paid?: Paid }>(each: T, day: Day): T {
  return each.paid !== undefined && each.paid > day ? { ...each, paid: 'no' } : each;
}

/** The days before a piece of an earlier lot was lost or left, or an earlier sale was paid. */
function eves(book: Book): Day[] {
  const lots = [...book.pieces.values()].flatMap(({ date, lost = [], gone = [] }) =>
    [...lost, ...gone].filter((line) => line.date > date).map((line) => line.date),
  );
  const paid = [...book.sales.values()].flatMap((sale) =>
    sale.paid !== undefined && sale.paid !== 'no' && sale.paid > sale.date ? [sale.paid] : [],
  );
  return [...lots, ...paid].map((day) => addDays(day, -1));
}

describe('the book cut at the end of a day', () => {
  it('gives the reports that the whole book gives of that day', async () => {
    const property = fc.asyncProperty(
      studioPlan({ breaks: 'some', features: ['making-losses', 'gone', 'terms'] }),
      fc.tuple(part, fc.nat()),
      async (plan, [when, which]) => {
        const { book } = await openFiles(filesOf(plan, undefined), growStudio(plan).asOf);
        const days = [dayIn(plan, when), ...eves(book)];
        const day = days[which % days.length] ?? '';
        const cut = cutAt(book, day);
        const [before, whole] = [everyJson(cut, day), everyJson(book, day)];
        // Of a day before the book's first, the day's page says when the book begins.
        if (EVENT_KINDS.every((kind) => cut[kind].size === 0)) before['day'] = whole['day'] ?? '';
        expect(differing(before, whole)).toEqual([]);
      },
    );
    await holds(property, 3);
  });
});

describe('a span that goes on beyond the day', () => {
  it.each([
    ['materials', { where: true }],
    ['firings', {}],
    ['losses', { by: 'product' }],
    ['losses', { chart: true }],
    ['income', { by: 'month' }],
  ] as const)('ends with it: %s %o', async (command, options) => {
    const asOf = '2026-02-20';
    const figures = async (span: Record<string, string>): Promise<object> => {
      const { out } = await runCommand(command, { ...options, ...span, asOf, as: 'json' });
      const { rows, totals } = JSON.parse(out) as Record<string, unknown>;
      return { rows, totals };
    };
    const whole = await figures({ year: '2026' });
    expect(whole).toEqual(await figures({ from: '2026-01-01', to: asOf }));
    expect(whole).not.toEqual(await figures({ from: '2026-01-01', to: '2026-01-31' }));
  });
});
