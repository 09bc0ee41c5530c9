/** Reads `1 mug oatmeal broken`: what left without a sale, how, from where and when. */
import { FIELDS, type RecordSpec } from '../../../schema/generated/fields.js';
import type { Book, Day } from '../../book.ts';
import { listed } from '../../check/finding.ts';
import { dayMeant } from '../../number/date.ts';
import { mapping, textUnder, type RawMap } from '../../read/raw.ts';
import { countsFlow } from '../../reckon/flow.ts';
import { STUDIO_PLACE } from '../../reckon/ware/lot.ts';
import { lotsStanding } from '../../reckon/ware/ware.ts';
import type { OpenedStudio } from '../plan.ts';
import type { TypedFault } from '../expand.ts';
import type { Form } from '../form.ts';
import type { Lexicon } from '../lexicon.ts';
import { readSentence } from '../sentence.ts';
import { openLineWords, wareChoices } from '../which-ware.ts';
import { goneInLots, type GoneWare, type LotChange, type ShortWare } from './in-lots.ts';

/** How a line reads. */
export const GONE_FORM: Form = {
  kind: 'pieces',
  field: 'gone',
  option: 'gone',
  shape: 'COUNT PRODUCT [GLAZE] [HOW] [first or second] [at GALLERY] [FAIR] [of LOT] [on DAY]',
  about: 'what left without a sale',
  examples: ['1 mug oatmeal broken', '2 bowl second gift on yesterday'],
  grammar: {
    lead: 'count',
    bare: '1',
    middle: ['how', 'product', 'glaze', 'grade', 'fair', 'lot'],
    tails: { at: 'channel', on: 'date', of: 'lot' },
  },
};

/** The words for how pieces leave, as the schema has them. */
export const HOW_GONE = wordsOf(goneSpec(), 'how');

/** The fields that a line fills: what a lot's `gone` has, and what ware is known by. */
export function goneSpec(): RecordSpec {
  const list = FIELDS.pieces.fields['gone'];
  const line = FIELDS.sales.fields['lines'];
  if (list?.type !== 'list' || list.of.type !== 'record') throw new Error('lots have no gone');
  if (line?.type !== 'list' || line.of.type !== 'record') throw new Error('sales have no lines');
  const { product, glaze, lot } = line.of.fields;
  const ware = Object.entries({ product, glaze, lot }).flatMap(([name, spec]) =>
    spec ? [[name, spec] as const] : [],
  );
  return { ...list.of, fields: { ...list.of.fields, ...Object.fromEntries(ware) } };
}

function wordsOf({ fields }: RecordSpec, name: string): readonly string[] {
  const spec = fields[name];
  return spec?.type === 'word' ? spec.words : [];
}

/** What the options say of every line that does not say it itself. */
export interface GoneOptions {
  readonly how?: string | undefined;
  readonly channel?: string | undefined;
  readonly fair?: string | undefined;
  readonly lot?: string | undefined;
  readonly date?: string | undefined;
  readonly note?: string | undefined;
}

/** What is to be written in which lots, and what of the lines can't be understood. */
export interface GoneSaid {
  readonly wares: readonly GoneWare[];
  readonly lots: readonly LotChange[];
  readonly faults: readonly TypedFault[];
}

/** The book that lines are about, and its words. */
interface GoneGround extends Pick<OpenedStudio, 'book' | 'asOf'> {
  readonly lexicon: Lexicon;
}

/** Reads lines, and finds the lots; with a fault there are none. */
export function readGone(
  ground: GoneGround,
  sentences: readonly string[],
  options: GoneOptions,
): GoneSaid {
  const read = sentences.map((sentence, index) => readLine(ground, { sentence, index }, options));
  const faults = read.flatMap((each) => ('fault' in each ? each.fault : []));
  const wares = read.flatMap((each) => ('ware' in each ? [each.ware] : []));
  if (faults.length > 0) return { wares: [], lots: [], faults };
  const lots = goneInLots(ground, wares);
  if (!('short' in lots)) return { wares, lots, faults };
  const index = wares.indexOf(lots.short);
  const line = { sentence: sentences[index] ?? '', index };
  return { wares: [], lots: [], faults: [faultIn(line, tooFew(ground, lots))] };
}

/** A line, and which it is. */
interface GoneLine {
  readonly sentence: string;
  readonly index: number;
}

type LineRead = { readonly ware: GoneWare } | { readonly fault: readonly TypedFault[] };

function readLine(ground: GoneGround, line: GoneLine, options: GoneOptions): LineRead {
  const { sentence, index } = line;
  const { fields: own, faults } = readSentence(sentence.replace(/\bgiven away\b/, 'given-away'), {
    form: GONE_FORM,
    spec: goneSpec(),
    lexicon: ground.lexicon,
  });
  if (faults.length > 0)
    return { fault: faults.map((fault) => ({ ...fault, path: ['gone', index], sentence })) };
  const given = Object.entries(options).filter(([, value]) => value !== undefined);
  const fields = mapping(Object.entries({ ...Object.fromEntries(given), ...own }));
  const said = lacking(ground, fields) ?? undecided(ground, fields, sentence);
  return said ? { fault: [faultIn(line, said)] } : { ware: wareOf(ground, fields) };
}

interface FaultWords {
  readonly message: string;
  readonly hint: string;
}

function faultIn({ sentence, index }: GoneLine, words: FaultWords): TypedFault {
  const at = { path: ['gone', index], sentence, start: 0, width: sentence.length };
  return { rule: 'schema', ...at, ...words };
}

/** What a line has to say, and doesn't. */
function lacking({ book, asOf, lexicon }: GoneGround, fields: RawMap): FaultWords | undefined {
  const text = (name: string): string => textUnder(fields, name);
  const product = productOf(lexicon, fields);
  if (product === '')
    return {
      message: 'it does not say what left',
      hint: `write a product, as in "${GONE_FORM.examples[0] ?? ''}"`,
    };
  if (!book.products.has(product))
    return { message: `${product} has errors`, hint: 'run saggar check, and correct it first' };
  if (!/^[1-9]\d{0,5}$/.test(text('count')))
    return {
      message: `"${text('count')}" is not a count of pieces`,
      hint: `write how many first, as in "1 ${product}"`,
    };
  if (text('how') === '')
    return {
      message: `it does not say why the ${product} left`,
      hint: `add --why with one of ${listed(HOW_GONE, 'or')}`,
    };
  const day = dayOf(fields, asOf);
  if (day === undefined)
    return { message: `"${text('date')}" is not a day`, hint: 'write one such as 2026-03-08' };
  return day > asOf
    ? { message: `${day} is still to come`, hint: 'write the day on which they left' }
    : undefined;
}

function productOf(lexicon: Lexicon, fields: RawMap): string {
  const lot = lexicon.find(textUnder(fields, 'lot'));
  return textUnder(fields, 'product') || textUnder(lot?.raw, 'product');
}

function dayOf(fields: RawMap, asOf: Day): Day | undefined {
  return dayMeant(textUnder(fields, 'date') || asOf, asOf);
}

/** Where several sorts stand, and the line does not say which. */
function undecided(ground: GoneGround, fields: RawMap, sentence: string): FaultWords | undefined {
  const { grade, ...ware } = wareOf(ground, fields);
  const said = fields['grade'] === undefined ? {} : { grade };
  const choices = wareChoices(ground.book, { ...ware, ...said });
  if (choices.length === 0) return undefined;
  const where = whereWords(ware.place);
  return openLineWords({ path: ['gone', 0], product: ware.product, where, choices }, sentence);
}

function whereWords(place: string): string {
  return place === STUDIO_PLACE ? 'in the studio' : `at ${place}`;
}

function wareOf({ lexicon, asOf }: GoneGround, fields: RawMap): GoneWare {
  const text = (name: string): string | undefined => textUnder(fields, name) || undefined;
  const entry = ['how', 'channel', 'fair', 'note'].flatMap((name) => {
    const value = text(name);
    return value === undefined ? [] : [[name, value] as const];
  });
  return {
    product: productOf(lexicon, fields),
    glaze: text('glaze'),
    lot: text('lot'),
    grade: text('grade') === 'second' ? 'second' : 'first',
    count: Number(text('count')),
    day: dayOf(fields, asOf) ?? asOf,
    place: text('channel') ?? STUDIO_PLACE,
    entry: mapping(entry),
  };
}

function tooFew({ book, lexicon }: GoneGround, { short, had }: ShortWare): FaultWords {
  const { product, glaze, lot, grade, count, day, place } = short;
  const name = [product, glaze, grade === 'second' ? grade : undefined, lot && `of ${lot}`];
  const all = standingPiles(book, {
    product,
    day,
    isOnRecord: (id) => lexicon.find(id) !== undefined,
  });
  const there = all.length > 0 ? listed(all) : 'none';
  return {
    message: `${count} ${name.filter(Boolean).join(' ')} left, but ${whereWords(place)} on ${day} ${had === 1 ? 'is' : 'are'} ${had}`,
    hint: `of ${product} there ${all.length === 1 ? 'is' : 'are'} ${there}; write which of them, or the count of them`,
  };
}

interface PileQuery {
  readonly product: string;
  readonly day: Day;
  readonly isOnRecord: (lot: string) => boolean;
}

/** All that stands of a product: `2 oatmeal in the studio`, `1 second rust at gallery`. */
function standingPiles(book: Book, { product, day, isOnRecord }: PileQuery): readonly string[] {
  const piles = new Map<string, number>();
  for (const { lot, glaze, places } of lotsStanding(countsFlow(book, day).ware.lots)) {
    if (lot.product !== product || !isOnRecord(lot.id)) continue;
    for (const [key, count] of places) {
      const [grade, place = STUDIO_PLACE] = key.split(' ');
      const name = [grade === 'second' ? grade : '', glaze.split(' + ')[0], whereWords(place)];
      const words = name.filter(Boolean).join(' ');
      piles.set(words, (piles.get(words) ?? 0) + count);
    }
  }
  return [...piles].filter(([, count]) => count > 0).map(([words, count]) => `${count} ${words}`);
}
