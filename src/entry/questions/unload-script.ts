/** The questions that `unload` asks: lot by lot what came out, then what is read off at the end. */
import { mapping, textUnder, valueAt, type RawMap } from '../../read/raw.ts';
import { firingsOf } from '../../reckon/ware/stages.ts';
import type { Lexicon } from '../lexicon.ts';
import { LOST_TO, causeWords } from '../meant.ts';
import { linesInKiln, loadLineSpec, type LineInKiln } from '../unload.ts';
import { lookAtDraft, sayOf } from './draft.ts';
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
import { narrowed, plainTerm, termOffers } from './terms.ts';
import { draftOf, readingDue, type KilnLoad } from './unload-readings.ts';

/** All questions about a firing that is unloaded. */
export function unloadScript(load: KilnLoad): Script {
  const lines = linesInKiln(load.firing);
  return (answers) => {
    const whole =
      lines.length > 1 && !isDone(answers, WHOLE_KILN) ? wholeQuestion(lines) : undefined;
    if (whole) return whole;
    for (const line of isAllGood(answers) ? [] : lines) {
      const next = lineQuestion(load, line, answers);
      if (next) return next;
    }
    return readingDue(load, answers);
  };
}

/** The key of the question about the whole kiln. */
const WHOLE_KILN = 'kiln';

function isAllGood(answers: readonly Answer[]): boolean {
  return answerText(answers, WHOLE_KILN) === 'yes';
}

function wholeQuestion(lines: readonly LineInKiln[]): Question {
  const count = lines.reduce((sum, { fields }) => sum + Number(fields['in']), 0);
  const words = ['no', 'yes'];
  return question({
    key: WHOLE_KILN,
    prompt: `Did all ${count} come out good?`,
    about: 'yes: nothing is lost, nothing is a second; no: line by line',
    fallback: 'no',
    isClosed: true,
    offers: termOffers(words.map(plainTerm)),
    judge: (line) =>
      words.includes(line) ? takenAnswer([], line) : { refused: 'answer yes or no' },
  });
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
    const [ofLost, ofSeconds] = [
      causesOf(line, 'lost', answers),
      causesOf(line, 'second', answers),
    ];
    const isApart = ofLost.length > 0 && second > 0 && ofSeconds.length > 0;
    const causes = [...ofSeconds, ...(isApart ? [LOST_TO] : []), ...ofLost];
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

/** What did not come out good. */
type Bad = 'lost' | 'second';

function badKey({ index }: LineInKiln, what: Bad | `${Bad} why`): string {
  return `${what} ${index}`;
}

/** The word for a line of which all came out good. */
const GOOD = 'good';

/** A count, or counts with their causes: `3`, `2 cracked 1 warped`. */
function countIn(text: string): number {
  return (text.match(/\d+/g) ?? []).reduce((sum, count) => sum + Number(count), 0);
}

function lineCounts(line: LineInKiln, answers: readonly Answer[]): OutcomeCounts {
  const lost = countIn(answerText(answers, badKey(line, 'lost')));
  const second = countIn(answerText(answers, badKey(line, 'second')));
  return { first: Number(line.fields['in']) - second - lost, second, lost };
}

/** The causes of what was lost, or of the seconds, each with its count. */
function causesOf(line: LineInKiln, what: Bad, answers: readonly Answer[]): readonly string[] {
  const said = answerText(answers, badKey(line, what));
  const ownKey = badKey(line, `${what} why`);
  const own = answers.filter(({ key, text }) => key === ownKey && text !== '');
  return [...(said.match(/\d+ [^\d\s]\S*/g) ?? []), ...own.map(({ left }) => left)];
}

function lineQuestion(
  load: KilnLoad,
  line: LineInKiln,
  answers: readonly Answer[],
): Question | undefined {
  const due = { load, line, answers };
  const [lost, second] = [badQuestion(due, 'lost'), badQuestion(due, 'second')];
  if (lost || answerText(answers, badKey(line, 'lost')) === GOOD) return lost;
  return mayBeSecond(load, line) ? second : undefined;
}

/** The question about what was lost, or is a second, or about the causes that are still to be said. */
function badQuestion(due: LineDue, what: Bad): Question | undefined {
  const { line, answers } = due;
  if (!isDone(answers, badKey(line, what))) return countQuestion(due, what);
  const causes = causesOf(line, what, answers);
  const left = lineCounts(line, answers)[what] - countIn(causes.join(' '));
  const isOver = left < 1 || isDone(answers, badKey(line, `${what} why`));
  return isOver ? undefined : causeQuestion(due, what, left);
}

/** Seconds come out of the last firing alone: what is fired again is good or lost. */
function mayBeSecond({ firing, lexicon, opened }: KilnLoad, { fields }: LineInKiln): boolean {
  const { lot, refire } = fields;
  if (typeof lot !== 'string') return false;
  const product = textUnder(lexicon.find(lot)?.raw, 'product');
  const fired = firingsOf(opened.book.products.get(product));
  return refire !== undefined || fired.at(-1) === textUnder(firing.raw, 'kind');
}

interface LineDue {
  readonly load: KilnLoad;
  readonly line: LineInKiln;
  readonly answers: readonly Answer[];
}

const ASKED_AS: Readonly<Record<Bad, string>> = { lost: 'lost', second: 'seconds' };

function countQuestion(due: LineDue, what: Bad): Question {
  const { line, load } = due;
  const seconds =
    mayBeSecond(load, line) && what === 'lost' ? `; ${GOOD}: none, and no seconds` : '';
  return question({
    key: badKey(line, what),
    prompt: `${lineTitle(line, load.lexicon)}: ${ASKED_AS[what]}`,
    about: `a count, with its cause where that is known: 2 cracked${seconds}`,
    path: ['load', line.index, what],
    fallback: '0',
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

function judgeCount(due: LineDue, what: Bad, typed: string): JudgedAnswer {
  const { load, line, answers } = due;
  if (what === 'lost' && typed === GOOD) return takenAnswer([], typed);
  if (!/^\d+(?: [^\d\s]\S*(?: \d+ [^\d\s]\S*)*)?$/.test(typed))
    return {
      refused: `"${typed}" is not a count, nor a count with its cause; write 2 or 2 cracked`,
    };
  const given = { key: badKey(line, what), text: typed, prompt: '', isList: false };
  const answer = { ...takenAnswer([], typed), ...given };
  const so = { load, line, answers: [...answers, answer] };
  const went = Number(line.fields['in']);
  if (lineCounts(line, so.answers).first < 0)
    return { refused: `only ${went} went in; count again what is lost and what is a second` };
  const fields = outcomeFields(so);
  const error = sayOfLine(load, line, fields);
  return error === '' ? takenAnswer([], typed) : { refused: error };
}

/** The line with what the answers so far say came out. */
function outcomeFields({ line, answers }: LineDue): RawMap {
  const { first, second, lost } = lineCounts(line, answers);
  const causes = new Map<string, number>();
  for (const cause of [...causesOf(line, 'lost', answers), ...causesOf(line, 'second', answers)]) {
    const [count = '', word = ''] = cause.split(' ');
    causes.set(word, (causes.get(word) ?? 0) + Number(count));
  }
  const why = mapping([...causes].map(([word, count]) => [word, String(count)]));
  const known = { first: String(first), second: String(second), lost: String(lost) };
  return mapping(Object.entries({ ...line.fields, ...known, ...(causes.size > 0 ? { why } : {}) }));
}

function sayOfLine(load: KilnLoad, { index }: LineInKiln, fields: RawMap): string {
  const path = ['load', index];
  return sayOf(lookAtDraft(load.opened, draftOf(load, path, fields)), load.firing.id, path).error;
}

function causeQuestion(due: LineDue, what: Bad, left: number): Question {
  const { line, load } = due;
  const terms = causeWords(loadLineSpec()).map(plainTerm);
  return question({
    key: badKey(line, `${what} why`),
    prompt: `${lineTitle(line, load.lexicon)}: why ${left} ${what === 'lost' ? 'lost' : left === 1 ? 'second' : 'seconds'}`,
    about: `such as ${left} cracked, or cracked alone; what is not said has no cause`,
    path: ['load', line.index, 'why'],
    mayBeEmpty: true,
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
    judge: (typed) => judgeCause(due, { what, left }, typed),
  });
}

function judgeCause(
  due: LineDue,
  { what, left }: { readonly what: Bad; readonly left: number },
  typed: string,
): JudgedAnswer {
  const [, count = `${left}`, cause = ''] = /^(\d+)?\s*(\S*)$/.exec(typed) ?? [];
  const { load, line, answers } = due;
  const known = causesOf(line, what, answers).map((each) => each.split(' ')[1]);
  if (known.includes(cause)) return { refused: `"${cause}" is given twice; keep one of the two` };
  if (cause === '') return { refused: `write a count and a cause, such as ${left} cracked` };
  if (Number(count) > left)
    return { refused: `only ${left} are left without a cause; write ${left} ${cause}` };
  const given = { key: badKey(line, `${what} why`), text: typed, prompt: '', isList: true };
  const answer = { ...takenAnswer([], `${count} ${cause}`), ...given };
  const error = sayOfLine(load, line, outcomeFields({ load, line, answers: [...answers, answer] }));
  return error === '' ? takenAnswer([], `${count} ${cause}`) : { refused: error };
}
