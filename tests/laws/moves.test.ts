/** A field moves no more than its schema says: nothing, or what happens from its record's earliest day on. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KINDS, type Book, type Day, type Kind } from '../../src/book.ts';
import { addDays, daysBetween } from '../../src/number/date.ts';
import { movingText } from '../../src/read/kept/moves.ts';
import { movedByRecord, movesOf } from '../helpers/moves.ts';
import type { Raw, RawMap } from '../../src/read/raw.ts';
import { bookFrom, type Files } from '../helpers/book.ts';
import { randomSource } from '../helpers/random-source.js';
import { growStudio, studioPlan, type RandomStudio } from '../helpers/random-studio.ts';
import { bookOfStudio, bookWith, type AnyKind } from './support/books.ts';
import { FIRST_DAY } from './support/days.ts';
import { editOf, fieldsOf, type Edit, type Editing, type Field } from './support/field-edits.ts';
import { flowText } from './support/flow-text.ts';
import { holds } from '../helpers/law.ts';

/** A studio with all that edits of it are judged by. */
interface Studio extends RandomStudio {
  readonly book: Book;
  /** Each record with its text, to find those that name another. */
  readonly texts: readonly { readonly text: string; readonly record: RawMap }[];
}

function studioOf(grown: RandomStudio): Studio {
  const all = KINDS.flatMap((kind) => Object.values(grown.records[kind]));
  const texts = all.map((record) => ({ text: JSON.stringify(record), record }));
  return { ...grown, book: bookOfStudio(grown), texts };
}

const DAY = /^\d{4}-\d\d-\d\d$/;

function daysIn(raw: Raw): Day[] {
  if (typeof raw === 'string') return DAY.test(raw) ? [raw] : [];
  return Object.values(raw).flatMap(daysIn);
}

/** The eve of the first day of the record, as it was or is, and of those that name it. */
function eveOf(texts: Studio['texts'], { id, before, after }: Edit): Day {
  const naming = texts.filter(({ text }) => text.includes(`"${id}"`)).map(({ record }) => record);
  const [first = FIRST_DAY] = [before, after, ...naming].flatMap(daysIn).sort();
  return addDays(first, -1);
}

/** The field that an edit was of, by its kind and keys. */
interface Named {
  readonly kind: AnyKind;
  readonly field: Field;
  readonly name: string;
}

const EVERY: readonly Named[] = [...KINDS, 'studio' as const].flatMap((kind) =>
  fieldsOf(kind).map((field) => ({ kind, field, name: [kind, ...field.keys].join(' ') })),
);

/** The fields that were edited so far, and whether an edit moved anything. */
const tried = new Map<string, boolean>();

function editing(studio: Studio, { kind, name }: Named, seed: number): Editing {
  const { settings, asOf } = studio;
  const random = randomSource(seed, name);
  const records = kind === 'studio' ? { studio: settings } : studio.records[kind];
  const day = (): Day => addDays(FIRST_DAY, random.int(0, daysBetween(FIRST_DAY, asOf)));
  const ids = (of: Kind): string[] => Object.keys(studio.records[of]);
  return { kind, records, values: { random, day, ids } };
}

/** The studio with an edit done. */
function after(studio: Studio, { kind }: Named, { id, after: record }: Edit): Studio {
  const book = bookWith(studio.book, { kind, id }, record);
  if (kind === 'studio') return { ...studio, book, settings: record };
  const records = { ...studio.records, [kind]: { ...studio.records[kind], [id]: record } };
  return { ...studio, book, records };
}

/** The fields that are to be edited in a studio, and what decides how. */
interface Trying {
  readonly seed: number;
  readonly fields: readonly Named[];
}

/** An edit of what moves nothing: the books before and after it. */
interface Step {
  readonly named: Named;
  readonly edit: Edit;
  readonly was: Book;
  readonly is: Book;
}

/** Edits of all fields that move nothing, one after the other, where the record had the field's place. */
function stillSteps(first: Studio, { seed, fields }: Trying): Step[] {
  let studio = first;
  return fields.flatMap((named) => {
    const { kind, name } = named;
    const edit = editOf(editing(studio, named, seed), named.field);
    if (!edit) return [];
    tried.set(name, false);
    const { book } = studio;
    if (edit.isFilled) {
      const was = bookWith(book, { kind, id: edit.id }, edit.before);
      return [{ named, edit, was, is: after(studio, named, edit).book }];
    }
    studio = after(studio, named, edit);
    return [{ named, edit, was: book, is: studio.book }];
  });
}

/** What edits of those fields did all the same; a look at the last book tells of all before it. */
function wronglyStill(studio: Studio, trying: Trying): string[] {
  const { book, asOf } = studio;
  const steps = stillSteps(studio, trying);
  const isSame = (was: Book, is: Book): boolean => flowText(was, asOf) === flowText(is, asOf);
  const last = steps.findLast(({ edit }) => !edit.isFilled)?.is ?? book;
  const isRowSame = isSame(book, last);
  return steps
    .filter(({ named: { kind }, edit, was, is }) => {
      const isKnown = isRowSame && !edit.isFilled;
      return !isSameText(kind, edit) || !(isKnown || isSame(was, is));
    })
    .map(({ named, edit }) => `${named.name} moves something: ${JSON.stringify(edit)}`);
}

const isSameText = (kind: AnyKind, { before, after: record }: Edit): boolean =>
  movingText(kind, before) === movingText(kind, record);

const isStill = ({ kind, field }: Named): boolean => movesOf(kind, field.keys) === 'nothing';

/** What edits of the other fields did that they should not have done. */
function wronglyMoved(studio: Studio, { seed, fields }: Trying): string[] {
  return fields.flatMap((named) => {
    const edit = editOf(editing(studio, named, seed), named.field);
    const wrong = edit ? wrongIn(studio, named, edit) : [];
    return wrong.map((words) => `${named.name} moves ${words}: ${JSON.stringify(edit)}`);
  });
}

function wrongIn(
  { book, texts, asOf }: Studio,
  { kind, field, name }: Named,
  edit: Edit,
): string[] {
  const was = bookWith(book, { kind, id: edit.id }, edit.before);
  const is = bookWith(book, { kind, id: edit.id }, edit.after);
  const isMovedOn = (day: Day): boolean => flowText(was, day) !== flowText(is, day);
  tried.set(name, tried.get(name) === true || isMovedOn(asOf));
  if (isSameText(kind, edit)) return isMovedOn(asOf) ? ['something'] : [];
  const isDated = movesOf(kind, field.keys) === 'date';
  const reaches = [edit.before, edit.after].map((record) => movedByRecord(kind, record));
  if (!isDated || reaches.includes('all')) return [];
  return isMovedOn(eveOf(texts, edit)) ? ['what was before'] : [];
}

/** Whether it was edited, and an edit of what is said to move something did. */
function isDone(named: Named): boolean {
  return isStill(named) ? tried.has(named.name) : tried.get(named.name) === true;
}

/** The format has one value; what is no longer there is seldom what was changed to before. */
const NEVER = ['classes changes without', 'channels changes without', 'studio format'];

const STILL = EVERY.filter(isStill);
const MOVING = EVERY.filter((named) => !isStill(named));

const SALE =
  's1: { date: 2026-05-01, channel: door, shipping: 9, tax: 2, lines: [{ class: kids, count: 1, price: 40 }, { product: mug, count: 1, price: 20 }] }';

/** A studio with that sale; by itself nothing says what its tax is on, so it is on all lines. */
function taxed(more: Files): Files {
  return {
    sales: SALE,
    classes: 'kids: { name: Kids, starts: 2026-05-01 }',
    products: 'mug: { name: Mug }',
    channels: 'door: { name: Door, kind: direct, tax-place: County }',
    ...more,
  };
}

const rates = (place: string, from: string, more = ''): Files =>
  taxed({
    studio: `{ format: 1, name: T, currency: USD, taxes: [{ place: ${place}, percent: 5%, from: ${from}${more} }] }`,
  });
const kids = (changes: string): Files =>
  taxed({ classes: `kids: { name: Kids, starts: 2026-05-01, changes: [${changes}] }` });
const post = (more: string): Files =>
  taxed({ channels: `door: { name: Door, kind: direct, tax-place: County, ${more} }` });

/** What edits at random seldom move, each in two books. */
const SELDOM: Readonly<Record<string, readonly [Files, Files]>> = {
  'studio taxes': [taxed({}), rates('County', '2026-01-01')],
  'studio taxes place': [rates('Town', '2026-01-01'), rates('County', '2026-01-01')],
  'studio taxes taxes': [
    rates('County', '2026-01-01'),
    rates('County', '2026-01-01', ', taxes: [classes]'),
  ],
  'studio taxes from': [rates('County', '2026-06-01'), rates('County', '2026-01-01')],
  'classes changes from': [
    kids('{ from: 2026-01-01, taxed: no }'),
    kids('{ from: 2026-06-01, taxed: no }'),
  ],
  'channels tax-in-shipping': [
    post('tax-included: 8%'),
    post('tax-included: 8%, tax-in-shipping: no'),
  ],
  'channels changes tax-in-shipping': [
    post('tax-included: 8%, changes: [{ from: 2026-01-01, tax-in-shipping: no }]'),
    post('tax-included: 8%, changes: [{ from: 2026-01-01, fee-each: 0 }]'),
  ],
  'channels changes taxed': [
    post('tax-included: 8%, changes: [{ from: 2026-01-01, taxed: no }]'),
    post('tax-included: 8%, changes: [{ from: 2026-01-01, fee-each: 0 }]'),
  ],
};

describe('a field', () => {
  const plans = studioPlan({ days: 60, breaks: 'some' });
  const law = (wrongs: (studio: Studio, seed: number) => string[], runs: number): void => {
    holds(
      fc.property(plans, fc.noShrink(fc.nat()), (plan, seed) => {
        expect(wrongs(studioOf(growStudio(plan)), seed)).toEqual([]);
      }),
      runs,
    );
  };

  it('that is said to move nothing moves nothing', () => {
    law((studio, seed) => wronglyStill(studio, { seed, fields: STILL }), 12);
  });

  it('that is said to move what happens from a day on moves nothing before', () => {
    law((studio, seed) => wronglyMoved(studio, { seed, fields: MOVING }), 2);
  });

  it('was edited, and moved something if it is said to, so that the edits are worth their while', () => {
    const meant = EVERY.filter(({ name }) => !NEVER.includes(name) && !(name in SELDOM));
    for (const [seed, plan] of fc.sample(plans, 60).entries()) {
      const fields = meant.filter((named) => !isDone(named));
      if (fields.length === 0) break;
      const studio = studioOf(growStudio(plan));
      expect(wronglyStill(studio, { seed, fields: fields.filter(isStill) })).toEqual([]);
      wronglyMoved(studio, { seed, fields: fields.filter((named) => !isStill(named)) });
    }
    expect(meant.filter((named) => !isDone(named)).map(({ name }) => name)).toEqual([]);
  });

  it.each(Object.entries(SELDOM))('%s moves a sale', (_, [files, others]) => {
    const [one, other] = [files, others].map((each) => flowText(bookFrom(each), '2026-12-31'));
    expect(one).not.toBe(other);
  });
});
