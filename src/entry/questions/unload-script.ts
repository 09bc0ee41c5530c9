/** The questions that `unload` asks: lot by lot what came out, then what is read off at the end. */
import {
  isMap,
  mapping,
  valueAt,
  withValue,
  type Path,
  type Raw,
  type RawMap,
} from '../../read/raw.ts';
import { withDefaults } from '../defaults.ts';
import { isStoodFor } from '../fields.ts';
import type { Lexicon, FoundRecord } from '../lexicon.ts';
import { causeWords } from '../meant.ts';
import type { OpenedStudio } from '../plan.ts';
import { linesInKiln, loadLineSpec, type LineInKiln } from '../unload.ts';
import { lookAtDraft, sayOf, type RecordDraft } from './draft.ts';
import { optionNamed } from './ground.ts';
import {
  answerText,
  isDone,
  question,
  takenAnswer,
  type Answer,
  type Question,
  type Script,
  type Verdict,
} from './question.ts';
import { narrowed, plainTerm } from './terms.ts';
import { lastLike, recordsByDay } from './usual.ts';

/** The firing that is unloaded, in its studio. */
export interface KilnLoad {
  readonly opened: OpenedStudio;
  readonly lexicon: Lexicon;
  readonly firing: FoundRecord;
  /** What is read off at the end: names of options, and fields that those fill, still to be asked. */
  readonly readings: readonly KilnReading[];
}

/** An option of `unload` in camelCase, and the field of the firing that it fills. */
export interface KilnReading<Option extends string = string> {
  readonly option: Option;
  readonly field: string;
}

/** The readings that the last firing of this kiln and kind has, and this one lacks. */
export function usualReadings<Option extends string>(
  firing: FoundRecord,
  lexicon: Lexicon,
  readings: readonly KilnReading<Option>[],
): readonly KilnReading<Option>[] {
  const fields = isMap(firing.raw) ? firing.raw : mapping([]);
  const others = recordsByDay(lexicon, 'firings').filter((record) => record !== fields);
  const last = lastLike(others, fields, [['kiln'], ['kind']]);
  return readings.filter(({ field }) => {
    const path = field.split('.');
    const isLacking =
      valueAt(fields, path) === undefined && !isStoodFor('firings', fields, path[0]);
    return isLacking && valueAt(last, path) !== undefined && field !== 'meter.before';
  });
}

/** All questions about a firing that is unloaded. */
export function unloadScript(load: KilnLoad): Script {
  const lines = linesInKiln(load.firing);
  return (answers) => {
    for (const line of lines) {
      const next = lineQuestion(load, line, answers);
      if (next) return next;
    }
    const reading = load.readings.find(({ option }) => !isDone(answers, option));
    return reading && readingQuestion(load, reading);
  };
}

/** What the answers say of each line, as sentences of `--line` in the order of the load. */
export function outcomeSentences(
  { firing }: KilnLoad,
  answers: readonly Answer[],
): readonly string[] {
  return linesInKiln(firing).map((line) => {
    const { first, second, lost } = lineCounts(line, answers);
    const counts = [
      [first, 'first'],
      [second, 'second'],
      [lost, 'lost'],
    ] as const;
    const said = counts.flatMap(([count, word]) => (count > 0 ? [`${count} ${word}`] : []));
    const causes = answeredCauses(line, answers).map(({ left }) => left);
    return [lotName(line), ...said, ...causes].filter((word) => word !== '').join(' ');
  });
}

function lotName({ fields: { lot, class: taught } }: LineInKiln): string {
  const name = lot ?? taught;
  return typeof name === 'string' ? name : '';
}

interface OutcomeCounts {
  readonly first: number;
  readonly second: number;
  readonly lost: number;
}

type Count = keyof OutcomeCounts;

function countKey({ index }: LineInKiln, what: Count | 'why'): string {
  return `${what} ${index}`;
}

function lineCounts(line: LineInKiln, answers: readonly Answer[]): OutcomeCounts {
  const count = (what: Count): number => Number(answerText(answers, countKey(line, what)));
  return { first: count('first'), second: count('second'), lost: count('lost') };
}

function answeredCauses(line: LineInKiln, answers: readonly Answer[]): readonly Answer[] {
  return answers.filter(({ key, text }) => key === countKey(line, 'why') && text !== '');
}

function lineQuestion(
  load: KilnLoad,
  line: LineInKiln,
  answers: readonly Answer[],
): Question | undefined {
  const went = Number(line.fields['in']);
  const { first, second, lost } = lineCounts(line, answers);
  const due = { load, line, answers };
  const isKnown = (what: Count): boolean => isDone(answers, countKey(line, what));
  if (!isKnown('first')) return countQuestion(due, 'first', went);
  if (first < went && !isKnown('second')) return countQuestion(due, 'second', 0);
  const rest = went - first - second;
  if (rest > 0 && !isKnown('lost')) return countQuestion(due, 'lost', rest);
  const causes = answeredCauses(line, answers).reduce(
    (total, { left }) => total + parseInt(left, 10),
    0,
  );
  const left = second + lost - causes;
  const isOver = left < 1 || isDone(answers, countKey(line, 'why'));
  return isOver ? undefined : causeQuestion(due, left);
}

interface LineDue {
  readonly load: KilnLoad;
  readonly line: LineInKiln;
  readonly answers: readonly Answer[];
}

const PLURAL: Readonly<Record<Count, string>> = {
  first: 'firsts',
  second: 'seconds',
  lost: 'lost',
};

function countQuestion(due: LineDue, what: Count, fallback: number): Question {
  const { line, load } = due;
  const prompt = `${lineTitle(line, load.lexicon)}: ${PLURAL[what]}`;
  return question({
    key: countKey(line, what),
    prompt,
    about: '',
    fallback: String(fallback),
    judge: (typed) => judgeCount(due, what, typed),
  });
}

/** `24 mug p260609xk`. */
function lineTitle({ fields }: LineInKiln, lexicon: Lexicon): string {
  const { lot, class: taught, outside, in: went } = fields;
  const made = typeof lot === 'string' ? valueAt(lexicon.find(lot)?.raw, ['product']) : undefined;
  return [went, made, lot ?? taught ?? outside]
    .filter((each) => typeof each === 'string')
    .join(' ');
}

function judgeCount(due: LineDue, what: Count, typed: string): Verdict {
  const { load, line, answers } = due;
  const counts = { ...lineCounts(line, answers), [what]: Number(typed) };
  const isShort = counts.first + counts.second + counts.lost < Number(line.fields['in']);
  const fields = outcomeFields(due, { [what]: typed });
  const error = sayOfLine(load, line, { fields, isWhole: what === 'lost' || !isShort });
  return error === '' ? takenAnswer([], typed) : { refused: error };
}

/** The line with the outcome so far and one more value of it. */
function outcomeFields({ line, answers }: LineDue, more: Readonly<Record<string, Raw>>): RawMap {
  const { first, second, lost } = lineCounts(line, answers);
  const known = { first: String(first), second: String(second), lost: String(lost) };
  return mapping(Object.entries({ ...line.fields, ...known, ...more }));
}

function sayOfLine(
  load: KilnLoad,
  { index }: LineInKiln,
  { fields, isWhole }: { readonly fields: RawMap; readonly isWhole: boolean },
): string {
  const path = ['load', index];
  const looked = lookAtDraft(load.opened, draftOf(load, path, fields));
  // What is missing so far is still to be asked for.
  const findings = looked.findings.filter(({ rule }) => isWhole || rule !== 'load-does-not-add-up');
  return sayOf({ ...looked, findings }, load.firing.id, path).error;
}

function draftOf({ firing }: KilnLoad, path: Path, value: Raw): RecordDraft {
  const changed = withValue(firing.raw, path, value);
  const { id, file } = firing;
  return { kind: 'firings', id, file, fields: isMap(changed) ? changed : mapping([]) };
}

function causeQuestion(due: LineDue, left: number): Question {
  const { line, load } = due;
  const terms = causeWords(loadLineSpec()).map(plainTerm);
  return question({
    key: countKey(line, 'why'),
    prompt: `${lineTitle(line, load.lexicon)}: causes, ${left} left to explain`,
    about: `such as ${left} cracked; an empty line leaves the rest without a cause`,
    fallback: '',
    isList: true,
    offers: (typed) => {
      const [, count = `${left}`, word = ''] = /^\s*(\d+)?\s*(.*?)\s*$/.exec(typed) ?? [];
      if (terms.some((term) => term.word === word)) return [];
      return narrowed(terms, word).map((term) => ({
        line: `${count} ${term.word}`,
        label: term.word,
        note: '',
      }));
    },
    judge: (typed) => judgeCause(due, left, typed),
  });
}

function judgeCause(due: LineDue, left: number, typed: string): Verdict {
  const [, count = `${left}`, cause = ''] = /^(\d+)?\s*(\S*)$/.exec(typed) ?? [];
  const { load, line, answers } = due;
  const known = answeredCauses(line, answers).map(({ left }) => left.split(' ').reverse());
  if (known.some(([each]) => each === cause))
    return { refused: `"${cause}" is given twice; take it back with <` };
  if (cause === '') return { refused: `write a count and a cause, such as ${left} cracked` };
  const why = mapping([
    ...known.map(([key = '', value = '']) => [key, value] as const),
    [cause, count],
  ]);
  const error = sayOfLine(load, line, { fields: outcomeFields(due, { why }), isWhole: true });
  return error === '' ? takenAnswer([], `${count} ${cause}`) : { refused: error };
}

function readingQuestion(load: KilnLoad, { option, field }: KilnReading): Question {
  const path = field.split('.');
  const spec = optionNamed('firings', field.replace('.', '-'));
  return question({
    key: option,
    prompt: spec?.title ?? field,
    about: `such as ${spec?.example ?? ''}; Enter leaves it out`,
    fallback: '',
    judge: (typed) => {
      const draft = draftOf(load, path, typed);
      const ground = { lexicon: load.lexicon, day: load.opened.asOf };
      const fields = withDefaults('firings', draft.fields, ground);
      const { error, warning } = sayOf(
        lookAtDraft(load.opened, { ...draft, fields }),
        draft.id,
        path,
      );
      return error === '' ? { ...takenAnswer([], typed), warning } : { refused: error };
    },
  });
}
