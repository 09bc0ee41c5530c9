/** A review has every figure of every report that a change moves, and no other. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import { addDays } from '../../src/number/date.ts';
import { isDecimal } from '../../src/number/decimal.ts';
import { changesSince } from '../../src/review/changes.ts';
import { compareReports } from '../../src/review/compared.ts';
import type { MovedFigure, ReportFigure } from '../../src/review/report-figures.ts';
import { digitsOf } from '../../src/reckon/booked.ts';
import { plainFigure } from '../../src/render/shown.ts';
import { holds } from '../helpers/law.ts';
import { randomSource, type RandomSource } from '../helpers/random-source.js';
import { IS_LONG } from '../helpers/tier.ts';
import { growStudio, studioPlan, type RandomStudio } from '../helpers/random-studio.ts';
import { bookOfStudio, bookWith, bookWithout } from './support/books.ts';
import { FIRST_DAY } from './support/days.ts';
import { randomEdit } from './support/random-edits.ts';
import { figuresApart, figuresOfBook, figureText, sheetOfLaw } from './support/second-review.ts';

/** A book after one change, and what the change was. */
interface Edited {
  readonly what: string;
  readonly book: Book;
}

/** The book after one random change. */
function edited(studio: RandomStudio, random: RandomSource): Edited | undefined {
  const book = bookOfStudio(studio);
  const edit = randomEdit(studio, random);
  if (!edit) return undefined;
  const { what, kind, id, after } = edit;
  if (after) return { what, book: bookWith(book, { kind, id }, after) };
  return kind === 'studio' ? undefined : { what, book: bookWithout(book, { kind, id }) };
}

/** What the review says of each figure that moved, as the second way does. */
function toldOf(moved: readonly MovedFigure[], minorDigits: number): string[] {
  return moved
    .map(({ report, by, period, row, column, type, before, after }) => {
      const name = `${report}|${by}|${period}|${row}`;
      const [was, is] = [before, after].map((figure) => plain(figure, type, minorDigits));
      return `${name}|${column}: ${was ?? ''} → ${is ?? ''}`;
    })
    .sort();
}

function plain(
  figure: ReportFigure | undefined,
  type: MovedFigure['type'],
  minorDigits: number,
): string {
  return isDecimal(figure)
    ? figureText(plainFigure(figure, { type }, minorDigits))
    : (figure ?? '');
}

/** What both ways say of a change of the studio; alike where the review misses nothing. */
async function bothWays(studio: RandomStudio, random: RandomSource): Promise<[string[], string[]]> {
  const old = bookOfStudio(studio);
  const { what, book: now } = edited(studio, random) ?? { what: 'nothing', book: old };
  const asOf = addDays(studio.asOf, random.pick([0, 0, 40]));
  const first = addDays(FIRST_DAY, -100);
  const sheets = { sheetOf: sheetOfLaw, ownSheets: new Map<string, string>() };
  const { moved } = compareReports(
    { old: { book: old, ...sheets }, now: { book: now, ...sheets }, asOf },
    changesSince(old, now),
  );
  const [was, is] = [old, now].map(({ studio: { basis = 'cash' } }) => basis);
  const bases =
    was === is ? ([undefined, is === 'cash' ? 'accrual' : 'cash'] as const) : [undefined];
  const before = await figuresOfBook(old, { first, asOf }, bases);
  const after = await figuresOfBook(now, { first, asOf }, bases);
  return [
    [what, ...toldOf(moved, digitsOf(now))],
    [what, ...figuresApart(before, after)],
  ];
}

it('has every figure of every report that a change moves, and no other', () =>
  holds(
    fc.asyncProperty(
      studioPlan({ days: IS_LONG ? 100 : 40 }),
      fc.noShrink(fc.nat()),
      async (plan, seed) => {
        const [told, found] = await bothWays(growStudio(plan), randomSource(seed, 'review'));
        expect(told).toEqual(found);
      },
    ),
    30,
    { long: 1000, endOnFailure: true },
  ));
