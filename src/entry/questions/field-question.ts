/** Makes a question of an option: how it is asked, what is offered, and what its answer is worth. */
import { NOUN, listed } from '../../check/finding.ts';
import { nearest } from '../../nearest.ts';
import { isList, valueAt, type Path, type RawMap } from '../../read/raw.ts';
import { isWordList, itemSpec, type FieldOption } from '../fields.ts';
import { draftId, lookAtDraft, sayOf } from './draft.ts';
import { optionWords, recordOf, type Ground } from './ground.ts';
import { likelyLines } from './likely-lines.ts';
import { progressOf } from './progress.ts';
import type { Form } from '../form.ts';
import type { Answer, Question, TakenAnswer, JudgedAnswer } from './question.ts';
import { sentenceOffers } from './sentence-offers.ts';
import { plainTerm, termOffers, termsOfField, type Term } from './terms.ts';
import { earlierTexts, recordsByDay, taxPlaces } from './usual.ts';

/** An option that is to be asked, after some answers. */
interface Due {
  readonly answers: readonly Answer[];
  readonly option: FieldOption;
  /** Empty for none. */
  readonly fallback: string;
}

/** The question of an option. */
export function optionQuestion(ground: Ground, due: Due): Question {
  const { option, fallback, answers } = due;
  const { name, repeats, required, title } = option;
  const count = answers.filter(({ key }) => key === name).length;
  const isList = repeats && !isWordList(option);
  return {
    key: name,
    prompt: isList && count > 0 ? `${title} (number ${count + 1})` : title,
    about: isList ? aboutLine(due, count) : aboutOf(option),
    path: isList ? answerPath(ground, option, answers) : option.path,
    fallback,
    mayBeEmpty: isList ? count > 0 || !required : !isAnswerNeeded(due),
    isList,
    isClosed: !isList && isClosed(ground, option),
    offers: isList ? lineOffers(ground, due) : wordOffers(ground, due),
    judge: (line) => judge(ground, due, line),
  };
}

// Of fields that stand for each other the one that is asked for is needed, though none is by itself.
function isAnswerNeeded({ option }: Due): boolean {
  return option.required || option.name === 'base-weight';
}

// The whole shape stands only above the first line; after that an example is enough.
function aboutLine({ option }: Due, count: number): string {
  const { form, example } = option;
  return count === 0 && form ? form.shape : `such as ${example}`;
}

function aboutOf({ spec, example }: FieldOption): string {
  if (spec.type === 'word' || spec.type === 'reference') return '';
  return `such as ${spec.type === 'day' ? DAY_WORDS : ''}${example}`;
}

/** Days as people say them, as many as show how that goes. */
const DAY_WORDS = 'today, yesterday, monday, 3 days ago or ';

function isClosed({ kind }: Ground, { name, spec }: FieldOption): boolean {
  const isCategory = kind === 'spent' && name === 'for';
  return spec.type === 'word' || spec.type === 'reference' || isCategory;
}

function wordOffers(ground: Ground, { option }: Due): Question['offers'] {
  const terms = termsFor(ground, option);
  return termOffers(terms);
}

function termsFor({ kind, lexicon, opened }: Ground, option: FieldOption): readonly Term[] {
  const { spec, name, path } = option;
  const own = Object.keys(opened.book.studio.categories ?? {}).map(plainTerm);
  const terms = [
    ...termsOfField(spec, lexicon),
    ...(kind === 'spent' && name === 'for' ? own : []),
  ];
  if (name === 'tax-place') return taxPlaces(opened.book).map(plainTerm);
  if (terms.length > 0 || !REMEMBERED.has(name)) return terms;
  return earlierTexts(recordsByDay(lexicon, kind), path).map(plainTerm);
}

/** Texts of which the same ones come again and again. */
const REMEMBERED = new Set(['buyer', 'supplier', 'to', 'maker']);

function lineOffers(ground: Ground, due: Due): Question['offers'] {
  const { form, spec } = due.option;
  const record = itemSpec(spec);
  if (!form || !record) return () => [];
  const { lexicon } = ground;
  const whole = likelyLines(ground, due.answers, form);
  return (line) => sentenceOffers({ form, spec: record, lexicon, whole }, line);
}

function judge(ground: Ground, { answers, option }: Due, typed: string): JudgedAnswer {
  const line = option.spec.type === 'cone' ? withoutQuotes(typed) : typed;
  const gives = [`--${option.name}`, line];
  const unknown = isClosed(ground, option) ? unknownChoice(ground, option, line) : undefined;
  if (unknown !== undefined) return { refused: unknown };
  const words = [...optionWords(ground, answers), ...gives];
  const path = answerPath(ground, option, answers);
  const verdict = judgeRecord(ground, { words, path, form: option.form });
  if ('refused' in verdict) return verdict;
  const { fields, right, warning } = verdict;
  return { gives, left: line + productOf(ground, fields, option), right, warning };
}

/** A record as some options say it, and what in it is in question. */
interface ToJudge {
  readonly words: readonly string[];
  readonly path: Path;
  readonly form: Form | undefined;
}

/** What the check says of the value at a path of a record, and how far the record's lines have come. */
export function judgeRecord(
  ground: Ground,
  { words, path, form }: ToJudge,
):
  | { readonly refused: string }
  | (Pick<TakenAnswer, 'right' | 'warning'> & { readonly fields: RawMap }) {
  const { fields, faults } = recordOf(ground, words);
  const [fault] = faults;
  if (fault) return { refused: `${fault.message}; ${fault.hint}` };
  const { kind, opened } = ground;
  const id = draftId(kind);
  const looked = lookAtDraft(opened, { kind, id, fields });
  const { error, warning } = sayOf(looked, id, path);
  if (error !== '') return { refused: error };
  const progress = form && looked.book ? progressOf(looked.book, form, id) : undefined;
  const right = progress ? [progress.line, progress.total].filter((t) => t !== '').join('   ') : '';
  return { fields, right, warning };
}

// In a file a cone stands in quotes, so they are typed here too.
function withoutQuotes(typed: string): string {
  return /^(["'])(.*)\1$/.exec(typed)?.[2] ?? typed;
}

/** ` (mug)` behind a load line, whose lot says little by itself. */
function productOf({ lexicon }: Ground, fields: RawMap, { path, form }: FieldOption): string {
  if (form?.field !== 'load') return '';
  const lines = valueAt(fields, path);
  const lot = isList(lines) ? valueAt(lines.at(-1), ['lot']) : undefined;
  const product =
    typeof lot === 'string' ? valueAt(lexicon.find(lot)?.raw, ['product']) : undefined;
  return typeof product === 'string' ? ` (${product})` : '';
}

/** The path of the answer: of a list, of its next line. */
function answerPath(
  { words }: Ground,
  { path, name, spec }: FieldOption,
  answers: readonly Answer[],
): readonly (string | number)[] {
  if (spec.type !== 'list') return path;
  const given = words.filter((word) => word === `--${name}` || word.startsWith(`--${name}=`));
  const typed = answers.filter(({ key, text }) => key === name && text !== '');
  return [...path, given.length + typed.length];
}

function unknownChoice(
  { lexicon, ...ground }: Ground,
  option: FieldOption,
  line: string,
): string | undefined {
  const { spec } = option;
  const words = termsFor({ lexicon, ...ground }, option).map(({ word }) => word);
  if (words.includes(line) || spec.type === 'word') return undefined;
  const near = nearest(line, words);
  const hint = near === undefined ? 'choose one below' : `did you mean "${near}"?`;
  if (spec.type !== 'reference') return `"${line}" is not one of the words for this; ${hint}`;
  const nouns = listed(
    spec.to.map((kind) => NOUN[kind]),
    'or',
  );
  return `there is no ${nouns} "${line}"; ${hint}`;
}
