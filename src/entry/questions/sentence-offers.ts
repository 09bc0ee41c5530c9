/** What may come next in a sentence: words and ids that go where the cursor stands. */
import type { FieldSpec, RecordSpec } from '../../../schema/generated/fields.js';
import type { Form } from '../form.ts';
import type { Lexicon } from '../lexicon.ts';
import { LOST_TO, OUTCOME_WORDS, causeWords, meantBy } from '../meant.ts';
import type { Offer } from './question.ts';
import { narrowed, plainTerm, termsOfField, type Term } from './terms.ts';

/** A form, the fields that it fills, and whole lines that are likely. */
interface OfferGround {
  readonly form: Form;
  readonly spec: RecordSpec;
  readonly lexicon: Lexicon;
  /** Whole lines, each by its word; shown until the line begins with a number of its own. */
  readonly whole: readonly Term[];
}

/** What may be chosen for a sentence as far as it is typed. */
export function sentenceOffers(ground: OfferGround, line: string): readonly Offer[] {
  const [, count = '', rest = ''] = /^\s*(\d+)\s+(.*)$/.exec(line) ?? [];
  // After a count of one's own, what the likely lines are of.
  const counted = count === '' ? [] : ground.whole.map((term) => withCount(term, count));
  const isBegun = /^\s*\d/.test(line);
  const terms = isBegun ? counted.filter(({ word }) => word !== line.trim()) : ground.whole;
  const whole = narrowed(terms, isBegun ? `${count} ${rest}`.trim() : line.trim());
  if (whole.length > 0 || line.trim() === '')
    return whole.map(({ word, note }) => ({ line: `${word} `, label: word, note }));
  return wordOffers(ground, line);
}

function withCount({ word, note }: Term, count: string): Term {
  return { word: word.replace(/^[\d.]+/, count), note };
}

function wordOffers(ground: OfferGround, line: string): readonly Offer[] {
  const words = line.split(/\s+/);
  const typed = words.at(-1) ?? '';
  // Nothing is offered for a number, nor for a word that stands there whole.
  if (/^\d/.test(typed)) return [];
  const earlier = words.slice(0, -1).filter((word) => word !== '');
  const terms = narrowed(nextTerms(ground, earlier, typed !== ''), typed);
  if (terms.some(({ word }) => word === typed)) return [];
  const start = line.slice(0, line.length - typed.length);
  return terms.map(({ word, note }) => ({ line: `${start}${word} `, label: word, note }));
}

/** Before a letter is typed only what is most likely next, after that everything that may come. */
function nextTerms(
  ground: OfferGround,
  earlier: readonly string[],
  isTyping: boolean,
): readonly Term[] {
  const { form, spec, lexicon } = ground;
  const { middle = [], tails = {}, flags = [], outcome = false } = form.grammar;
  const behind = tails[earlier.at(-1) ?? ''];
  if (behind !== undefined) return termsAt(spec, behind, lexicon);
  const used = new Set(earlier.flatMap((word) => meantBy(ground, middle, word)?.field ?? []));
  const left = middle.filter((field) => !used.has(field) && !isStoodFor(spec, used, field));
  const fields = isTyping ? left : left.slice(0, 1);
  return [
    ...fields.flatMap((field) => middleTerms(ground, field)),
    ...(isTyping ? [...Object.keys(tails), ...flags].map(plainTerm) : []),
    ...(outcome && isTyping ? [...OUTCOME_WORDS, ...causeWords(spec), LOST_TO].map(plainTerm) : []),
  ];
}

// Where products are named by themselves, their lots are found by id alone.
function middleTerms({ form, spec, lexicon }: OfferGround, field: string): readonly Term[] {
  const terms = termsAt(spec, field, lexicon);
  const isById = field === 'lot' && form.grammar.middle?.includes('product');
  return isById ? terms.map(({ word }) => plainTerm(word)) : terms;
}

function isStoodFor({ oneOf = [] }: RecordSpec, used: ReadonlySet<string>, field: string): boolean {
  return oneOf.includes(field) && oneOf.some((other) => used.has(other));
}

function termsAt(spec: RecordSpec, field: string, lexicon: Lexicon): readonly Term[] {
  const own: FieldSpec | undefined = spec.fields[field];
  return own ? termsOfField(own, lexicon) : [];
}
