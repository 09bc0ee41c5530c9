/** Fills in one field after the other: a state, a key, and the state after it. */
import { cached, cachedFor } from '../../once.ts';
import {
  EMPTY_LINE,
  eraseAt,
  eraseBefore,
  eraseWord,
  insert,
  lineAtEnd,
  move,
  type EditedLine,
} from './line.ts';
import type { Answer, Key, KeyName, Offer, Question, Script, TakenAnswer } from './question.ts';

/** How far an entry is. */
export interface QuestionState {
  readonly script: Script;
  readonly answers: readonly Answer[];
  /** Undefined when all is answered. */
  readonly question: Question | undefined;
  readonly line: EditedLine;
  /** Whether the line was not typed just now, but kept or refused: a first letter replaces it. */
  readonly isOld: boolean;
  /** Whether the usual value was taken away. */
  readonly isBare: boolean;
  /** Which of the offers is chosen. */
  readonly picked: number | undefined;
  /** Why the last answer was refused, or what is odd about it; empty for nothing. */
  readonly message: string;
  /** Answers that were gone back over, in their order; each comes back when it is asked for again. */
  readonly kept: readonly KeptText[];
  /** Where a single answer is being changed: all answers as they were; the kept ones follow by themselves. */
  readonly before?: readonly Answer[] | undefined;
  /** Pasted lines that are still to be answered with; what follows the last line end comes last. */
  readonly pasted: readonly string[];
  /** Whether the pasted lines go on: none of them was refused. */
  readonly isPasting: boolean;
  /** How far the record is moved down, in lines, to see its beginning. */
  readonly lift: number;
  /** Whether going back from the first question leaves it. */
  readonly isLeft?: boolean;
  /** Set when it ends before all is answered. */
  readonly end?: 'cancelled' | 'back' | undefined;
}

/** A text for a question; of one that was taken as an answer, that too. */
interface KeptText {
  readonly key: string;
  readonly text: string;
  readonly answer?: Answer;
}

/** Begins with a script's first question, or goes on with answers that there are already. */
export function begin(script: Script, answers: readonly Answer[] = []): QuestionState {
  return asked({
    script,
    answers,
    question: undefined,
    line: EMPTY_LINE,
    isOld: false,
    isBare: false,
    picked: undefined,
    message: '',
    kept: [],
    pasted: [],
    isPasting: false,
    lift: 0,
  });
}

/** The state after a key. */
export function press(asking: QuestionState, key: Key): QuestionState {
  return asking.question && !asking.end ? PRESSED[key.name](asking, key) : asking;
}

const PRESSED: Readonly<Record<KeyName, (asking: QuestionState, key: Key) => QuestionState>> = {
  text: (asking, { text }) => edited(asking, insert(lineToTypeOn(asking, text), text)),
  paste: pasteInto,
  enter: (asking) => goOn(asking, enter(asking)),
  complete,
  next: (asking) => pick(asking, 1),
  previous: (asking) => pick(asking, -1),
  up: (asking) => scroll(asking, -1),
  down: (asking) => scroll(asking, 1),
  left: (asking) => ({ ...asking, isOld: false, line: move(asking.line, -1) }),
  right: (asking) => ({ ...asking, isOld: false, line: move(asking.line, 1) }),
  home: (asking) => ({ ...asking, isOld: false, line: { ...asking.line, at: 0 } }),
  end: (asking) => ({ ...asking, isOld: false, line: lineAtEnd(asking.line.text) }),
  backspace: (asking) =>
    asking.line.text === ''
      ? { ...asking, isBare: true }
      : edited(asking, eraseBefore(asking.line)),
  delete: (asking) => edited(asking, eraseAt(asking.line)),
  empty,
  'empty-word': (asking) => edited(asking, eraseWord(asking.line)),
  back: goBack,
  cancel: (asking) => ({ ...asking, end: 'cancelled' }),
  resize: (asking) => asking,
};

// A space, or any other key than a letter, goes on with what is there.
function lineToTypeOn({ line, isOld }: QuestionState, text: string): EditedLine {
  return isOld && !text.startsWith(' ') ? EMPTY_LINE : line;
}

const offersFor = cachedFor(({ offers }: Question) => cached(offers));

/** What may be chosen for the line as it is typed; of one that was refused, all that there is instead. */
export function offersOf({ question, line, isOld, message }: QuestionState): readonly Offer[] {
  if (!question) return [];
  const isRefused = isOld && message !== '';
  return offersFor(question)(isRefused ? '' : line.text);
}

/** The offer that Enter takes: the chosen one, or the only one that is left of a closed choice. */
export function pickedOf(asking: QuestionState): number | undefined {
  if (asking.picked !== undefined || !asking.question?.isClosed) return asking.picked;
  if (asking.line.text.trim() === '') return undefined;
  const offers = offersOf(asking);
  const exact = offers.findIndex(({ line }) => isSameAnswer(line, asking.line.text));
  if (exact >= 0) return exact;
  // What is refused has nothing to do with what is offered instead.
  return offers.length === 1 && !asking.isOld ? 0 : undefined;
}

function isSameAnswer(a: string, b: string): boolean {
  return a.toLowerCase() === b.trim().toLowerCase();
}

/** What Enter takes on an empty line; empty for nothing. */
export function usualOf({ question, isBare }: QuestionState): string {
  return question && !question.isList && !isBare ? question.fallback : '';
}

function edited(asking: QuestionState, line: EditedLine): QuestionState {
  return { ...asking, line, isOld: false, picked: undefined, message: '' };
}

/** Empties the line; of an empty one, what was pasted and waits. */
function empty(asking: QuestionState): QuestionState {
  return asking.line.text === '' ? { ...asking, pasted: [] } : edited(asking, EMPTY_LINE);
}

// Where there is nothing to choose, the same keys show what has gone out of sight above.
function pick(asking: QuestionState, step: -1 | 1): QuestionState {
  const { length } = offersOf(asking);
  if (length === 0) return scroll(asking, step);
  const from = asking.picked ?? (step > 0 ? -1 : length);
  const picked = from + step;
  return { ...asking, picked: picked < 0 || picked >= length ? undefined : picked };
}

function scroll(asking: QuestionState, step: -1 | 1): QuestionState {
  return { ...asking, lift: Math.max(0, asking.lift - step) };
}

// In an open line a choice goes on being typed at once, as people know it from their shell.
function complete(asking: QuestionState): QuestionState {
  const offer = offersOf(asking)[asking.picked ?? 0];
  if (!offer || asking.question?.isClosed) return pick(asking, 1);
  return edited(asking, lineAtEnd(offer.line));
}

function enter(asking: QuestionState): QuestionState {
  const { question, line } = asking;
  if (!question) return asking;
  const picked = pickedOf(asking);
  const offer = picked === undefined ? undefined : offersOf(asking)[picked];
  if (offer && !question.isClosed) return { ...edited(asking, lineAtEnd(offer.line)), lift: 0 };
  if (offer) return answer(asking, question, offer.line);
  const typed = line.text.trim();
  return typed === '' ? enterEmpty(asking, question) : answer(asking, question, typed);
}

interface Accepted extends TakenAnswer {
  readonly text: string;
}

const LEFT_OUT: Accepted = { text: '', gives: [], left: '', right: '', warning: '' };

function enterEmpty(asking: QuestionState, question: Question): QuestionState {
  const usual = usualOf(asking);
  if (usual !== '') return answer(asking, question, usual);
  // A line that was emptied is taken out, and those after it move up.
  const isLineAfter = ({ key, text }: KeptText): boolean => key === question.key && text !== '';
  if (question.isList && asking.kept.some(isLineAfter)) return asked(asking);
  if (question.mayBeEmpty) return accept(asking, question, LEFT_OUT);
  const what = question.isList ? 'At least one line is needed' : 'This is needed';
  return { ...asking, message: `${what}.` };
}

function answer(asking: QuestionState, question: Question, text: string): QuestionState {
  const verdict = question.judge(text);
  if (!('refused' in verdict)) return accept(asking, question, { ...verdict, text });
  const line = lineAtEnd(text);
  const message = verdict.refused;
  return { ...asking, line, isOld: true, picked: undefined, message, isPasting: false };
}

function accept(asking: QuestionState, question: Question, accepted: Accepted): QuestionState {
  const { key, prompt, isList, path } = question;
  const answers = [...asking.answers, { ...accepted, key, prompt, isList, path }];
  return asked({ ...asking, answers, message: accepted.warning });
}

/** The next question; what was kept for it comes back, or follows by itself after a change. */
function asked(asking: QuestionState): QuestionState {
  const question = asking.script(asking.answers);
  const at = asking.kept.findIndex(({ key }) => key === question?.key);
  const again = asking.kept[at];
  const kept = asking.kept.filter((_, index) => index !== at);
  const line = again ? lineAtEnd(again.text) : EMPTY_LINE;
  const isOld = again !== undefined && again.text !== '';
  const isBare = again?.text === '';
  const now = { ...asking, question, kept, line, isOld, isBare, picked: undefined, lift: 0 };
  if (!question) return { ...now, kept: [], before: undefined };
  const isPassedOver = question.isAside === true && (again?.text ?? '') === '';
  if (isPassedOver) return accept(now, question, { ...LEFT_OUT, warning: asking.message });
  if (asking.before === undefined || !again) return now;
  if (again.text === '') return question.mayBeEmpty ? accept(now, question, LEFT_OUT) : now;
  // The whole record is checked at the end, so that a change takes no longer than an answer.
  if (!again.answer) return answer(now, question, again.text);
  return accept(now, question, { ...again.answer, warning: asking.message });
}

function keptFrom(answers: readonly Answer[]): readonly KeptText[] {
  return answers.map((answer) => ({ key: answer.key, text: answer.text, answer }));
}

/** One field back; what is typed is kept. A change that is gone back from is not made. */
function goBack(asking: QuestionState): QuestionState {
  const { question, line, before } = asking;
  if (before)
    return asked({ ...asking, answers: before, kept: [], before: undefined, message: '' });
  const text = line.text.trim();
  const isKept = question && text !== '' && asking.answers.length > 0;
  const typed = isKept ? [{ key: question.key, text }] : [];
  return stepBack({ ...asking, kept: [...typed, ...asking.kept] });
}

/** Opens the last answer again; from the first question there is no way further. */
export function stepBack(asking: QuestionState): QuestionState {
  const { answers, script } = asking;
  const last = answers.at(-1);
  if (!last && asking.isLeft) return { ...asking, end: 'back' };
  if (!last) return { ...asking, message: 'This is the first field.' };
  const before = {
    ...asking,
    answers: answers.slice(0, -1),
    question: script(answers.slice(0, -1)),
  };
  const isPassedOver = before.question?.isAside === true && last.text === '';
  return isPassedOver ? stepBack(before) : opened(before, last.text);
}

/** A field with the text that it had. */
function opened(asking: QuestionState, text: string): QuestionState {
  const now = { ...asking, picked: undefined, message: '', lift: 0, pasted: [], isPasting: false };
  return { ...now, line: lineAtEnd(text), isOld: text !== '', isBare: text === '' };
}

/** Opens one answer of a finished entry; of the end of a list, to add lines to it. */
export function change(asking: QuestionState, index: number): QuestionState {
  const { answers, script } = asking;
  const earlier = answers.slice(0, index);
  const kept = keptFrom(answers.slice(index + 1));
  const at = { ...asking, answers: earlier, question: script(earlier), kept, before: answers };
  return opened(at, answers[index]?.text ?? '');
}

// A paste goes into the line up to its first line end, and each further line is an answer of its own.
function pasteInto(asking: QuestionState, { text }: Key): QuestionState {
  const [first = '', ...rest] = text.split(/\r\n|\r|\n/);
  const typed = edited(asking, insert(lineToTypeOn(asking, first), first));
  if (rest.length === 0) return typed;
  return { ...typed, pasted: [...rest, ...asking.pasted], isPasting: true };
}

/** Answers with the line as it is, and types the next pasted one; to be called while it is pasting. */
export function pasteOn(asking: QuestionState): QuestionState {
  // An empty line between others ends no list.
  const isGap = asking.question?.isList === true && asking.line.text.trim() === '';
  return isGap ? typeNext(asking) : goOn(asking, enter(asking));
}

/** After an answer that was taken, what was pasted goes on; after one that was refused it waits. */
function goOn(before: QuestionState, asking: QuestionState): QuestionState {
  const isTaken = before.answers !== asking.answers;
  return isTaken && asking.pasted.length > 0 ? typeNext(asking) : { ...asking, isPasting: false };
}

function typeNext(asking: QuestionState): QuestionState {
  const [next, ...pasted] = asking.pasted;
  if (next === undefined || !asking.question) return { ...asking, isPasting: false };
  const line = insert(EMPTY_LINE, next);
  return { ...asking, line, isOld: false, isBare: false, pasted, isPasting: pasted.length > 0 };
}
