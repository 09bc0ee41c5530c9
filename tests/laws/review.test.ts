/** A review has every figure of every report that a change moves, and no other. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { KINDS, type Book, type Kind } from '../../src/book.ts';
import { addDays, daysBetween } from '../../src/number/date.ts';
import { isDecimal } from '../../src/number/decimal.ts';
import { changesSince } from '../../src/review/changes.ts';
import { compareReports } from '../../src/review/compared.ts';
import type { MovedFigure, ReportFigure } from '../../src/review/report-figures.ts';
import { digitsOf } from '../../src/reckon/booked.ts';
import { plainFigure } from '../../src/render/shown.ts';
import { holds } from '../helpers/law.ts';
import { randomSource, type RandomSource } from '../helpers/random-source.js';
import { growStudio, studioPlan, type RandomStudio } from '../helpers/random-studio.ts';
import { bookOfStudio, bookWith, bookWithout, type AnyKind } from './support/books.ts';
import { FIRST_DAY } from './support/days.ts';
import { editOf, fieldsOf } from './support/field-edits.ts';
import { figuresApart, figuresOfBook, figureText, sheetOfLaw } from './support/second-review.ts';

/** A book after one change, and what the change was. */
interface Edited {
  readonly what: string;
  readonly book: Book;
}

/** One record gone, or there once more, or one field of it another. */
function edited(studio: RandomStudio, random: RandomSource): Edited | undefined {
  const book = bookOfStudio(studio);
  const kinds = KINDS.filter((kind) => book[kind].size > 0);
  const kind = random.pick(kinds);
  const id = random.pick([...book[kind].keys()]);
  if (random.chance(0.1)) return { what: `${id} is gone`, book: bookWithout(book, { kind, id }) };
  if (random.chance(0.1)) {
    const again = { kind, id: `${id}x` };
    return { what: `${id} twice`, book: bookWith(book, again, studio.records[kind][id] ?? {}) };
  }
  return fieldEdited({ studio, book, random }, random.chance(0.2) ? 'studio' : kind);
}

interface Around {
  readonly studio: RandomStudio;
  readonly book: Book;
  readonly random: RandomSource;
}

function fieldEdited({ studio, book, random }: Around, kind: AnyKind): Edited | undefined {
  const { settings, records, asOf } = studio;
  const day = (): string => addDays(FIRST_DAY, random.int(0, daysBetween(FIRST_DAY, asOf)));
  const ids = (of: Kind): string[] => Object.keys(records[of]);
  const own = kind === 'studio' ? { studio: settings } : records[kind];
  const field = random.pick(fieldsOf(kind));
  const edit = editOf({ kind, records: own, values: { random, day, ids } }, field);
  if (!edit || edit.isFilled) return undefined;
  const { id, after } = edit;
  return {
    what: `${kind} ${id} ${field.keys.join('.')}`,
    book: bookWith(book, { kind, id }, after),
  };
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
    fc.asyncProperty(studioPlan({ days: 100 }), fc.noShrink(fc.nat()), async (plan, seed) => {
      const [told, found] = await bothWays(growStudio(plan), randomSource(seed, 'review'));
      expect(told).toEqual(found);
    }),
    6,
    { long: 1000, endOnFailure: true },
  ));
