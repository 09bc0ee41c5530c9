/** Which field a word in the middle of a sentence is meant for. */
import type { FieldSpec, RecordSpec } from '../../schema/generated/fields.js';
import type { Kind } from '../book.ts';
import { NOUN, listed, withArticle } from '../check/finding.ts';
import { nearest } from '../nearest.ts';
import { dayWordsIn } from '../number/date.ts';
import { isUnit } from '../number/unit.ts';
import type { Raw, RawMap } from '../read/raw.ts';
import type { Form } from './form.ts';
import type { Lexicon, FoundRecord } from './lexicon.ts';

/** What a sentence is read by. */
export interface SentenceGrounds {
  readonly form: Form;
  /** The item's fields. */
  readonly spec: RecordSpec;
  readonly lexicon: Lexicon;
}

/** A field and what is to stand in it. */
interface FieldMeant {
  readonly field: string;
  readonly value: string;
}

/** The first of the fields that the word fits: an id by what it names, a word by the field's own. */
export function meantBy(
  { spec, lexicon }: SentenceGrounds,
  fields: readonly string[],
  word: string,
): FieldMeant | undefined {
  const named = lexicon.find(word);
  for (const field of fields) {
    const { kinds, words } = takes(spec.fields[field]);
    if (words.includes(word)) return { field, value: word };
    if (named && kinds.includes(named.kind)) return { field, value: named.id };
  }
  return undefined;
}

/** Everything that may stand in the middle of a sentence: kinds of ids, and words. */
export function termsOf({ form, spec }: SentenceGrounds): {
  readonly kinds: readonly Kind[];
  readonly words: readonly string[];
} {
  const { middle = [], flags = [], tails = {}, outcome = false } = form.grammar;
  const terms = middle.map((field) => takes(spec.fields[field]));
  return {
    kinds: [...new Set(terms.flatMap(({ kinds }) => kinds))],
    words: [
      ...terms.flatMap(({ words }) => words),
      ...flags,
      ...Object.keys(tails),
      ...(outcome ? [...OUTCOME_WORDS, ...causeWords(spec), LOST_TO] : []),
    ],
  };
}

/** Says that a word names a record of a kind that does not go here. */
export function namedElsewhere(
  grounds: SentenceGrounds,
  { id, kind }: FoundRecord,
): { readonly message: string; readonly hint: string } {
  const { kinds } = termsOf(grounds);
  const nouns = kinds.map((each) => withArticle(NOUN[each]));
  return {
    message: `"${id}" is ${withArticle(NOUN[kind])}, which does not go here`,
    hint:
      nouns.length === 0
        ? `write ${grounds.form.shape}`
        : `write the id of ${listed(nouns, 'or')}: ${grounds.form.shape}`,
  };
}

interface FieldTakes {
  readonly kinds: readonly Kind[];
  readonly words: readonly string[];
}

function takes(spec: FieldSpec | undefined): FieldTakes {
  if (spec?.type === 'reference') return { kinds: spec.to, words: spec.words ?? [] };
  if (spec?.type === 'word') return { kinds: [], words: spec.words };
  return spec?.type === 'list' ? takes(spec.of) : { kinds: [], words: [] };
}

/** The counts that a load line has. */
export const OUTCOME_WORDS: readonly string[] = ['first', 'second', 'lost'];

/** What begins the causes of the lost pieces alone, and the field that they go into. */
export const LOST_TO = 'lost-to';

/** The causes of loss that a load line may name. */
export function causeWords({ fields }: RecordSpec): readonly string[] {
  const why = fields['why'];
  return (why?.type === 'map' ? why.keys : undefined) ?? [];
}

/** What a count is of: pieces that came out so, or a cause. */
export interface OutcomeWord {
  readonly field: string;
  readonly cause?: string;
}

/** What a word after a count names, where it names an outcome or a cause. */
export function outcomeNamed(spec: RecordSpec, word: string): OutcomeWord | undefined {
  if (OUTCOME_WORDS.includes(word)) return { field: word };
  return causeWords(spec).includes(word) ? { field: 'why', cause: word } : undefined;
}

/** Whether a word counts what was meant to be an outcome: of `1 craked` the second word alone is wrong. */
export function isCountOfMistyped(spec: RecordSpec, word: string, next: string): boolean {
  return /^\d+$/.test(word) && nearest(next, [...OUTCOME_WORDS, ...causeWords(spec)]) !== undefined;
}

/**
 * Adds a cause to what was read of a load line, and says whether it did: each is counted once, but one
 * of lost pieces, after `lost-to`, may be of seconds too.
 */
export function countCause(fields: Map<string, Raw>, cause: string, count: string): boolean {
  const why = fields.get('why') as RawMap | undefined;
  const lostTo = fields.get(LOST_TO) as RawMap | undefined;
  if (cause in (lostTo ?? why ?? {})) return false;
  const all = Number(why?.[cause] ?? 0) + Number(count);
  fields.set('why', { ...why, [cause]: String(all) });
  if (lostTo) fields.set(LOST_TO, { ...lostTo, [cause]: count });
  return true;
}

/** The value as it is written in a file, and how many words it took. */
interface TakenValue {
  readonly text: string;
  readonly taken: number;
}

const NUMBER = /^\d[\d.,]*$/;
const JOINED = /^(\d[\d.,]*)([A-Za-z].*)$/;

/** Takes the words of one value: a day or a quantity may be of several. */
export function readValue({ type }: FieldSpec, words: readonly string[]): TakenValue {
  if (type === 'quantity') return readQuantity(words);
  const taken = isOfDays(type) ? Math.max(1, dayWordsIn(words)) : 1;
  return { text: words.slice(0, taken).join(' '), taken };
}

/** Whether a field of that type holds a day, or may hold one in place of a word. */
export function isOfDays(type: FieldSpec['type']): boolean {
  return type === 'day' || type === 'paid';
}

/** Takes a number, perhaps times another, and a unit where one follows; the first word begins with a digit. */
export function readQuantity(words: readonly string[]): TakenValue {
  const [first = '', times = '', second = ''] = words;
  const isProduct = NUMBER.test(first) && times === 'x' && /^\d/.test(second);
  if (!isProduct) return withUnit(words, '');
  const { text, taken } = withUnit(words.slice(2), `${first} x `);
  return { text, taken: taken + 2 };
}

function withUnit([number = '', unit = '']: readonly string[], before: string): TakenValue {
  const [, digits = '', joined = ''] = JOINED.exec(number) ?? [];
  if (isUnit(joined)) return { text: `${before}${digits} ${joined}`, taken: 1 };
  if (isUnit(unit)) return { text: `${before}${number} ${unit}`, taken: 2 };
  return { text: before + number, taken: 1 };
}
