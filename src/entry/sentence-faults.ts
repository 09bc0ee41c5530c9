/** What is wrong with a word of a typed sentence, and what to write instead. */
import type { FieldSpec, RecordSpec } from '../../schema/generated/fields.js';
import { listed } from '../check/finding.ts';
import { nearest } from '../nearest.ts';
import { ENTRY_VALUE } from './form.ts';
import { namedElsewhere, termsOf, type SentenceGrounds } from './meant.ts';

/** A word of a sentence, and where it begins, from 0. */
export interface SentenceWord {
  readonly text: string;
  readonly start: number;
}

/** What is wrong with a sentence, and at which of its characters. */
export interface WordFault {
  readonly rule: 'schema' | 'unknown-reference' | 'wrong-kind-of-reference';
  readonly message: string;
  readonly hint: string;
  readonly start: number;
  readonly width: number;
}

/** The name of a field in front of a person. */
export function fieldTitle({ fields }: RecordSpec, field: string): string {
  return (fields[field]?.title ?? field).toLowerCase();
}

/** That a number may be a count or a price: of `mug 25`. */
export function eitherNumber(word: SentenceWord, sentence: string): WordFault {
  const rest = sentence.replace(word.text, '').replace(/\s+/g, ' ').trim();
  return faultAt(word, {
    rule: 'schema',
    message: `"${word.text}" may be a count or a price`,
    hint: `write "${word.text} ${rest}" for the count, or "1 ${rest} at ${word.text}" for the price`,
  });
}

function faultAt(
  { text, start }: SentenceWord,
  rest: Omit<WordFault, 'start' | 'width'>,
): WordFault {
  return { ...rest, start, width: text.length };
}

/** That something is said twice. */
export function givenTwice(word: SentenceWord, what: string): WordFault {
  return faultAt(word, {
    rule: 'schema',
    message: `${what} is given twice`,
    hint: 'keep one of the two',
  });
}

/** That a word has nothing after it. */
export function nothingAfter(
  { form }: SentenceGrounds,
  word: SentenceWord,
  spec: FieldSpec,
): WordFault {
  return faultAt(word, {
    rule: 'schema',
    message: `"${word.text}" needs a value after it`,
    hint: `write ${word.text} ${spec.type === 'list' ? '' : spec.example}, or leave it out: ${form.shape}`,
  });
}

/** That nothing is known of a word that could go here. */
export function unplacedWord(reading: SentenceGrounds, word: SentenceWord): WordFault {
  const { form, lexicon } = reading;
  const other = lexicon.find(word.text);
  if (other)
    return faultAt(word, { rule: 'wrong-kind-of-reference', ...namedElsewhere(reading, other) });
  const { kinds, words } = termsOf(reading);
  const near = nearest(word.text, [...words, ...lexicon.ids(kinds)]);
  const isNumber = /^\d/.test(word.text);
  return faultAt(word, {
    rule: isNumber ? 'schema' : 'unknown-reference',
    message: isNumber
      ? `"${word.text}" has no place here`
      : `"${word.text}" is ${kinds.length > 0 ? 'neither an id in this studio nor' : 'not'} a word this line can use`,
    hint: near && near !== word.text ? `did you mean "${near}"?` : `write ${form.shape}`,
  });
}

/** That a sentence lacks what it begins with. */
export function noLead({ spec, form }: SentenceGrounds, lead: string, sentence: string): WordFault {
  const what = lead === ENTRY_VALUE ? 'number' : fieldTitle(spec, lead);
  const examples = form.examples.slice(0, 2).map((each) => `"${each}"`);
  return faultAt(
    { text: sentence, start: 0 },
    {
      rule: 'schema',
      message: `the ${what} is missing`,
      hint: `begin with it, as in ${listed(examples, 'or')}`,
    },
  );
}
