/** Reads one typed sentence into the fields of a list's item, by its form and the words of the book. */
import type { FieldSpec } from '../../schema/generated/fields.js';
import { listed } from '../check/finding.ts';
import { nearest } from '../nearest.ts';
import type { Raw, RawMap } from '../read/raw.ts';
import type { Grammar } from './form.ts';
import {
  LOST_TO,
  countCause,
  isCountOfMistyped,
  meantBy,
  namedElsewhere,
  outcomeNamed,
  readValue,
  termsOf,
  type OutcomeWord,
  type SentenceGrounds,
} from './meant.ts';

/** A word of a sentence, and where it begins, from 0. */
interface SentenceWord {
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

/** The fields that a sentence fills, in the schema's order, and the words that it could not place. */
export interface Sentence {
  readonly fields: RawMap;
  readonly faults: readonly WordFault[];
}

/** Reads a sentence; values are taken as they are written, for the check to judge. Never throws. */
export function readSentence(sentence: string, grounds: SentenceGrounds): Sentence {
  const reading: SentenceReading = {
    ...grounds,
    grammar: grounds.form.grammar,
    words: sentenceWords(sentence),
    at: 0,
    fields: new Map(),
    faults: [],
  };
  while (reading.at < reading.words.length) takeNext(reading);
  if (reading.faults.length === 0) wantLead(reading, sentence);
  return { fields: fieldsInOrder(reading), faults: reading.faults };
}

/** The words of a text with their places. */
function sentenceWords(text: string): SentenceWord[] {
  return Array.from(text.matchAll(/\S+/g), (match) => ({ text: match[0], start: match.index }));
}

interface SentenceReading extends SentenceGrounds {
  readonly grammar: Grammar;
  readonly words: readonly SentenceWord[];
  at: number;
  readonly fields: Map<string, Raw>;
  readonly faults: WordFault[];
}

/** Takes the words at `at` if they are of its sort, and says whether it did. */
type Taker = (reading: SentenceReading, word: SentenceWord) => boolean;

const TAKERS: readonly Taker[] = [
  takeTail,
  takeOutcome,
  takeFlag,
  takeLead,
  takeMiddle,
  takeSkipped,
  takeRest,
];

function takeNext(reading: SentenceReading): void {
  const word = reading.words[reading.at];
  if (!word || TAKERS.some((take) => take(reading, word))) return;
  const next = reading.words[reading.at + 1]?.text ?? '';
  if (!(reading.grammar.outcome && isCountOfMistyped(reading.spec, word.text, next)))
    reading.faults.push(unplacedWord(reading, word));
  reading.at += 1;
}

function takeTail(reading: SentenceReading, word: SentenceWord): boolean {
  const field = tailOf(reading, word);
  const spec = field === undefined ? undefined : reading.spec.fields[field];
  if (field === undefined || !spec) return false;
  reading.at += 1;
  const next = reading.words[reading.at];
  if (!next) reading.faults.push(nothingBehind(reading, word, spec));
  else put(reading, field, { word, value: valueBehind(reading, spec) });
  return true;
}

function tailOf({ grammar }: SentenceReading, { text }: SentenceWord): string | undefined {
  const { tails = {} } = grammar;
  return Object.hasOwn(tails, text) ? tails[text] : undefined;
}

function valueBehind(reading: SentenceReading, spec: FieldSpec): string {
  if (spec.type === 'text') return takeText(reading, false);
  const value = takeValue(reading, spec);
  return spec.type === 'reference' ? (reading.lexicon.find(value)?.id ?? value) : value;
}

/** Takes words up to the next tail, outcome or, where the text comes first, word of the book. */
function takeText(reading: SentenceReading, first: boolean): string {
  const from = reading.at;
  do reading.at += 1;
  while (reading.at < reading.words.length && !endsText(reading, first));
  const taken = reading.words.slice(from, reading.at);
  return taken.map(({ text }) => text).join(' ');
}

function endsText(reading: SentenceReading, first: boolean): boolean {
  const word = reading.words[reading.at];
  if (!word) return true;
  const isWord = first && meantBy(reading, reading.grammar.middle ?? [], word.text) !== undefined;
  return isWord || beginsTail(reading, word) || outcomeAt(reading, word) !== undefined;
}

// Within a text a tail's word counts only with what may follow it: "work at home at 15".
function beginsTail(reading: SentenceReading, word: SentenceWord): boolean {
  const field = tailOf(reading, word);
  const next = reading.words[reading.at + 1]?.text;
  if (field === undefined || next === undefined) return false;
  const type = reading.spec.fields[field]?.type;
  return type === 'text' || type === 'reference' || /^-?\d/.test(next);
}

function outcomeAt(
  { grammar, spec, words, at }: SentenceReading,
  word: SentenceWord,
): OutcomeWord | undefined {
  const next = words[at + 1]?.text;
  if (grammar.outcome !== true || next === undefined || !/^\d+$/.test(word.text)) return undefined;
  return outcomeNamed(spec, next);
}

function takeOutcome(reading: SentenceReading, word: SentenceWord): boolean {
  if (reading.grammar.outcome === true && word.text === LOST_TO) {
    reading.at += 1;
    put(reading, LOST_TO, { word, value: {} });
    return true;
  }
  const outcome = outcomeAt(reading, word);
  if (!outcome) return false;
  const { field, cause } = outcome;
  reading.at += 2;
  if (cause === undefined) put(reading, field, { word, value: word.text });
  else if (!countCause(reading.fields, cause, word.text))
    reading.faults.push(twice(word, `"${cause}"`));
  return true;
}

function takeFlag(reading: SentenceReading, word: SentenceWord): boolean {
  if (!reading.grammar.flags?.includes(word.text)) return false;
  reading.at += 1;
  put(reading, word.text, { word, value: 'yes' });
  return true;
}

function takeLead(reading: SentenceReading, word: SentenceWord): boolean {
  const { lead } = reading.grammar;
  const spec = lead === undefined ? undefined : reading.spec.fields[lead];
  if (lead === undefined || !spec || reading.fields.has(lead)) return false;
  const value = leadValue(reading, spec, word);
  if (value === undefined) return false;
  put(reading, lead, { word, value });
  return true;
}

function leadValue(
  reading: SentenceReading,
  spec: FieldSpec,
  word: SentenceWord,
): string | undefined {
  if (spec.type === 'text') return reading.at === 0 ? takeText(reading, true) : undefined;
  return /^-?\d/.test(word.text) ? takeValue(reading, spec) : undefined;
}

function takeValue(reading: SentenceReading, spec: FieldSpec): string {
  const words = reading.words.slice(reading.at).map((each) => each.text);
  const read = readValue(spec, words);
  reading.at += read.taken;
  return read.text;
}

function takeMiddle(reading: SentenceReading, word: SentenceWord): boolean {
  const meant = meantBy(reading, reading.grammar.middle ?? [], word.text);
  if (!meant) return false;
  reading.at += 1;
  const { field, value } = meant;
  if (reading.spec.fields[field]?.type === 'list') append(reading, field, value);
  else put(reading, field, { word, value });
  return true;
}

function append({ fields }: SentenceReading, field: string, value: string): void {
  const known = fields.get(field);
  fields.set(field, [...(Array.isArray(known) ? (known as readonly Raw[]) : []), value]);
}

function takeSkipped(reading: SentenceReading, word: SentenceWord): boolean {
  if (!reading.grammar.skips?.includes(word.text)) return false;
  reading.at += 1;
  return true;
}

function takeRest(reading: SentenceReading, word: SentenceWord): boolean {
  const { rest } = reading.grammar;
  // What a first word in the middle was meant for has to be found before the rest is taken.
  const isReady = (reading.grammar.middle ?? []).every((field) => reading.fields.has(field));
  if (rest === undefined || !isReady) return false;
  put(reading, rest, { word, value: takeText(reading, false) });
  return true;
}

function put(
  reading: SentenceReading,
  field: string,
  { word, value }: { readonly word: SentenceWord; readonly value: Raw },
): void {
  const name =
    tailOf(reading, word) === field ? `"${word.text}"` : `the ${fieldTitle(reading, field)}`;
  if (reading.fields.has(field)) reading.faults.push(twice(word, name));
  else reading.fields.set(field, value);
}

function fieldTitle({ spec }: SentenceReading, field: string): string {
  return (spec.fields[field]?.title ?? field).toLowerCase();
}

function fieldsInOrder({ spec, fields }: SentenceReading): RawMap {
  const names = Object.keys(spec.fields).filter((name) => fields.has(name));
  return Object.fromEntries(names.map((name) => [name, fields.get(name) ?? '']));
}

function faultAt(
  { text, start }: SentenceWord,
  rest: Omit<WordFault, 'start' | 'width'>,
): WordFault {
  return { ...rest, start, width: text.length };
}

function twice(word: SentenceWord, what: string): WordFault {
  return faultAt(word, {
    rule: 'schema',
    message: `${what} stands here for the second time`,
    hint: 'keep one of the two',
  });
}

function nothingBehind({ form }: SentenceReading, word: SentenceWord, spec: FieldSpec): WordFault {
  return faultAt(word, {
    rule: 'schema',
    message: `nothing stands behind "${word.text}"`,
    hint: `write ${word.text} ${spec.type === 'list' ? '' : spec.example}, or leave it out: ${form.shape}`,
  });
}

function unplacedWord(reading: SentenceReading, word: SentenceWord): WordFault {
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
      : `"${word.text}" is ${kinds.length > 0 ? `no id of this studio` : 'not known'} and no word of this form`,
    hint: near && near !== word.text ? `did you mean "${near}"?` : `write ${form.shape}`,
  });
}

function wantLead(reading: SentenceReading, sentence: string): void {
  const { lead } = reading.grammar;
  if (lead === undefined || reading.fields.has(lead)) return;
  const start = { text: sentence, start: 0 };
  reading.faults.push(
    faultAt(start, {
      rule: 'schema',
      message: `the ${lead === 'value' ? 'number' : fieldTitle(reading, lead)} is missing`,
      hint: `begin with it, as in ${listed(
        reading.form.examples.slice(0, 2).map((each) => `"${each}"`),
        'or',
      )}`,
    }),
  );
}
