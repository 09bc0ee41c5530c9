/** Reads one typed sentence into the fields of a list's item, by its form and the words of the book. */
import type { FieldSpec } from '../../schema/generated/fields.js';
import type { Raw, RawMap } from '../read/raw.ts';
import type { Grammar } from './form.ts';
import {
  LOST_TO,
  countCause,
  isCountOfMistyped,
  meantBy,
  outcomeNamed,
  readValue,
  type OutcomeWord,
  type SentenceGrounds,
} from './meant.ts';
import {
  eitherNumber,
  fieldTitle,
  noLead,
  nothingAfter,
  givenTwice,
  unplacedWord,
  type SentenceWord,
  type WordFault,
} from './sentence-faults.ts';

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
  takeLoose,
  takeMiddle,
  takeSkipped,
  takeRest,
];

function takeNext(reading: SentenceReading): void {
  const word = reading.words[reading.at];
  if (!word || TAKERS.some((take) => take(reading, word))) return;
  const next = reading.words[reading.at + 1]?.text ?? '';
  if (!(reading.grammar.outcome && isCountOfMistyped(reading.spec, word.text, next)))
    reading.faults.push(
      isEither(reading, word) ? eitherNumber(word, wholeOf(reading)) : unplacedWord(reading, word),
    );
  reading.at += 1;
}

function wholeOf({ words }: SentenceReading): string {
  return words.map(({ text }) => text).join(' ');
}

function takeTail(reading: SentenceReading, word: SentenceWord): boolean {
  const field = tailOf(reading, word);
  const spec = field === undefined ? undefined : reading.spec.fields[field];
  if (field === undefined || !spec) return false;
  reading.at += 1;
  const next = reading.words[reading.at];
  if (!next) reading.faults.push(nothingAfter(reading, word, spec));
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
    reading.faults.push(givenTwice(word, `"${cause}"`));
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
  if (isEither(reading, word)) return false;
  const value = leadValue(reading, spec, word);
  if (value === undefined) return false;
  put(reading, lead, { word, value });
  return true;
}

/** Whether a number after a bare name may be a count or a price: of `mug 25`, not of `mug 25.50`. */
function isEither(
  { grammar: { lead = '', bare, loose }, fields }: SentenceReading,
  { text }: SentenceWord,
): boolean {
  const isOpen = bare !== undefined && loose !== undefined && !fields.has(lead);
  return isOpen && fields.size > 0 && NUMERAL.test(text);
}

const NUMERAL = /^\d+(?:\.\d+)?$/;

/** A number that comes without its word, once there is a lead: `1 mug 25`. */
function takeLoose(reading: SentenceReading, word: SentenceWord): boolean {
  const { lead = '', loose, bare } = reading.grammar;
  const isReady = reading.fields.has(lead) || (bare !== undefined && word.text.includes('.'));
  if (loose === undefined || !isReady || !NUMERAL.test(word.text)) return false;
  const isToCome = reading.words.slice(reading.at).some((each) => tailOf(reading, each) === loose);
  if (reading.fields.has(loose) || isToCome) return false;
  reading.at += 1;
  put(reading, loose, { word, value: word.text });
  return true;
}

function leadValue(
  reading: SentenceReading,
  spec: FieldSpec,
  word: SentenceWord,
): string | undefined {
  if (spec.type === 'text') return reading.at === 0 ? takeText(reading, true) : undefined;
  if (!/^-?\d/.test(word.text)) return undefined;
  return (spec.type === 'count' ? takeTimes(reading) : undefined) ?? takeValue(reading, spec);
}

/** The count of `2x mug` or `2 x mug`. */
function takeTimes(reading: SentenceReading): string | undefined {
  const [word = '', next = ''] = reading.words.slice(reading.at).map(({ text }) => text);
  const [, count, sign] = /^(\d+)([x×]?)$/.exec(word) ?? [];
  const isApart = sign === '' && /^[x×]$/.test(next) && !reading.lexicon.find(next);
  if (count === undefined || (sign === '' && !isApart)) return undefined;
  reading.at += isApart ? 2 : 1;
  return count;
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
    tailOf(reading, word) === field ? `"${word.text}"` : `the ${fieldTitle(reading.spec, field)}`;
  if (reading.fields.has(field)) reading.faults.push(givenTwice(word, name));
  else reading.fields.set(field, value);
}

function fieldsInOrder({ spec, fields }: SentenceReading): RawMap {
  const names = Object.keys(spec.fields).filter((name) => fields.has(name));
  return Object.fromEntries(names.map((name) => [name, fields.get(name) ?? '']));
}

function wantLead(reading: SentenceReading, sentence: string): void {
  const { lead, bare, loose } = reading.grammar;
  if (lead === undefined || reading.fields.has(lead)) return;
  const isNamed = [...reading.fields.keys()].some((field) => field !== loose);
  if (bare !== undefined && isNamed) reading.fields.set(lead, bare);
  else reading.faults.push(noLead(reading, lead, sentence));
}
