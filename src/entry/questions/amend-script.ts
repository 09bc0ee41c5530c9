/** The questions about a record that is wrong: which, which of its fields, and what is to stand there. */
import { EVENT_KINDS } from '../../book.ts';
import { NOUN } from '../../check/finding.ts';
import { dayMeant } from '../../number/date.ts';
import { pathWords } from '../../in-words.ts';
import { compareTexts } from '../../text-order.ts';
import { isList, isMap, textUnder, valueAt, type Path, type Raw } from '../../read/raw.ts';
import type { Refused } from '../../write/parts.ts';
import { amendedFrom } from '../amend-from.ts';
import {
  fieldMeant,
  readChange,
  withChanges,
  withWholePath,
  type Amendment,
  type ReadAmendment,
} from '../amendment.ts';
import type { EntryGround } from '../defaults.ts';
import type { FoundRecord, Lexicon } from '../lexicon.ts';
import type { OpenedStudio } from '../plan.ts';
import { NO_OUTLOOK, type Preview } from './preview.ts';
import {
  answerText,
  isDone,
  question,
  takenAnswer,
  type Answer,
  type Question,
  type Script,
  type JudgedAnswer,
} from './question.ts';
import { amendedPreview } from './record-preview.ts';
import { termOffers, termsOfField, type Term } from './terms.ts';

/** The studio, and what the command line says already. */
export interface AmendErrand {
  readonly opened: OpenedStudio;
  readonly lexicon: Lexicon;
  readonly record: FoundRecord | undefined;
  /** The first day on which it is so, where that is said. */
  readonly from: string | undefined;
}

interface AmendSaid {
  readonly record: FoundRecord | undefined;
  /** `lines.1.count=3`. */
  readonly changes: readonly string[];
}

/** What was answered. */
export function amendAnswers(errand: AmendErrand, answers: readonly Answer[]): AmendSaid {
  return {
    record: errand.record ?? errand.lexicon.find(answerText(answers, 'record')),
    changes: answers.flatMap(({ gives }) => gives),
  };
}

/** All questions about it: a field and its value, as often as there is something to change. */
export function amendScript(errand: AmendErrand): Script {
  return (answers) => {
    const { record, changes } = amendAnswers(errand, answers);
    if (!record) return recordQuestion(errand);
    const last = answers.at(-1);
    const isOpen = last?.key === FIELD && last.text !== '' && last.gives.length === 0;
    if (isOpen) return valueQuestion({ ...errand, record }, changes, last.left);
    return isDone(answers, FIELD) ? undefined : fieldQuestion(errand, record, changes);
  };
}

const FIELD = 'field';

function recordQuestion({ lexicon, opened }: AmendErrand): Question {
  const terms = latestFirst(lexicon, opened.asOf);
  return question({
    key: 'record',
    prompt: 'Record',
    about: 'its id, or a word of it; the latest come first',
    fallback: terms[0]?.word ?? '',
    mayBeEmpty: false,
    isClosed: true,
    offers: termOffers(terms),
    judge: (typed) =>
      lexicon.find(typed)
        ? takenAnswer([], typed)
        : { refused: `"${typed}" is not the id of a record; choose one below` },
  });
}

/** Records with a date up to a day, those of the latest first, and of a day those that come last in their file. */
function latestFirst(lexicon: Lexicon, asOf: string): readonly Term[] {
  const dated = lexicon
    .records(EVENT_KINDS)
    .map(({ id, kind, raw }) => ({ id, kind, raw, date: textUnder(raw, 'date') }))
    .filter(({ date }) => date !== '' && date <= asOf);
  return dated
    .reverse()
    .sort((one, other) => compareTexts(other.date, one.date))
    .map(({ id, kind, raw, date }) => ({
      word: id,
      note: `${NOUN[kind]} of ${date}${setApartBy(raw)}`,
    }));
}

const TOLD_BY = [
  'product',
  'recipe',
  'channel',
  'supplier',
  'to',
  'material',
  'kiln',
  'for',
  'buyer',
];

/** `, market, Puddle Coffee`: what sets a record apart from others of its kind and day. */
function setApartBy(raw: Raw): string {
  const words = TOLD_BY.map((field) => textUnder(raw, field)).filter((text) => text !== '');
  return words
    .slice(0, 2)
    .map((word) => `, ${word}`)
    .join('');
}

/** One field after the other until an empty line. */
function fieldQuestion(
  errand: AmendErrand,
  record: FoundRecord,
  changes: readonly string[],
): Question {
  const { lexicon, opened } = errand;
  const ground = { lexicon, day: opened.asOf };
  const now = withChanges(record.raw, readAll(record, changes, ground));
  return question({
    key: FIELD,
    prompt: changes.length === 0 ? 'What is wrong' : 'What else is wrong',
    about: 'a field, or the change itself, such as note="second bag"',
    fallback: '',
    mayBeEmpty: changes.length > 0,
    isList: true,
    isClosed: true,
    offers: termOffers(fieldTerms(now)),
    marks: (line) => placeOfField(line, record),
    judge: (typed) => {
      if (typed.includes('=')) return judgeChange({ ...errand, record }, changes, typed);
      const path = pathMeant(typed, record);
      return typeof path === 'string' ? takenAnswer([], path) : path;
    },
  });
}

/** The values of a record by their places, as `amend` writes them. */
function fieldTerms(value: Raw, path: Path = []): readonly Term[] {
  if (isList(value)) return value.flatMap((item, at) => fieldTerms(item, [...path, at]));
  if (isMap(value))
    return Object.entries(value).flatMap(([key, inner]) => fieldTerms(inner, [...path, key]));
  return [{ word: pathWords(path), note: value }];
}

function placeOfField(name: string, { kind }: FoundRecord): Path | undefined {
  const field = fieldMeant(name, kind);
  return 'refused' in field ? undefined : field.path;
}

/** The whole path to the field of a name, in words. */
function pathMeant(typed: string, record: FoundRecord): string | Refused {
  const whole = withWholePath(`${typed}=`, record);
  if (typeof whole !== 'string') return whole;
  const field = fieldMeant(whole.slice(0, -1), record.kind);
  return 'refused' in field ? field : pathWords(field.path);
}

/** What a change is judged by. */
interface OfRecord extends Omit<AmendErrand, 'record'> {
  readonly record: FoundRecord;
}

function valueQuestion(of: OfRecord, changes: readonly string[], name: string): Question {
  const { record, lexicon } = of;
  const field = fieldMeant(name, record.kind);
  const [path, terms] =
    'refused' in field ? [[], []] : [field.path, termsOfField(field.spec, lexicon)];
  const now = valueAt(record.raw, path);
  return question({
    key: `value of ${name}`,
    prompt: name,
    path,
    about: typeof now === 'string' ? `${now} now` : '',
    fallback: '',
    mayBeEmpty: false,
    offers: termOffers(terms),
    judge: (typed) => judgeChange(of, changes, `${name}=${typed}`),
  });
}

/** Refuses what can't be read, and what the check would refuse in that very field. */
function judgeChange(
  { record, lexicon, opened }: OfRecord,
  changes: readonly string[],
  change: string,
): JudgedAnswer {
  const ground = { lexicon, day: opened.asOf };
  const read = readChange(change, record, ground);
  if ('refused' in read) return read;
  const [fault] = read.faults;
  if (fault) return { refused: `${fault.message}; ${fault.hint}` };
  const all = [...readAll(record, changes, ground), read];
  const { problems } = amendedPreview(opened, record, () => all).outlook([]);
  const wrong = problems.find(({ path }) => isInField(path, read.path));
  if (wrong) return { refused: wrong.message };
  return takenAnswer([change], change.slice(change.indexOf('=') + 1).trim());
}

function readAll(
  record: FoundRecord,
  changes: readonly string[],
  ground: EntryGround,
): readonly ReadAmendment[] {
  return changes.flatMap((change) => {
    const read = readChange(change, record, ground);
    return 'refused' in read ? [] : [read];
  });
}

function isInField(path: Path, field: Path): boolean {
  return field.every((step, at) => path[at] === step);
}

/** Shows the record with its changes. */
export function amendPreview(errand: AmendErrand): Preview {
  const { lexicon, opened, from } = errand;
  const amendmentsIn = ({ record, changes }: AmendSaid): readonly Amendment[] => {
    const read = record ? readAll(record, changes, { lexicon, day: opened.asOf }) : [];
    const day = from === undefined ? undefined : dayMeant(from, opened.asOf);
    if (!record || day === undefined || read.length === 0) return read;
    const amended = amendedFrom(record, read, day);
    return 'refused' in amended ? [] : amended;
  };
  const previewOf = (answers: readonly Answer[]): Preview | undefined => {
    const said = amendAnswers(errand, answers);
    return said.record && amendedPreview(opened, said.record, () => amendmentsIn(said));
  };
  return {
    record: (answers, place) => previewOf(answers)?.record(answers, place),
    outlook: (answers) => previewOf(answers)?.outlook(answers) ?? NO_OUTLOOK,
  };
}
