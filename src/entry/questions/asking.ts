/** Asks questions one after the other: a state, a key, and the state after it. */
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

/** How it stands with the questions. */
export interface QuestionState {
  readonly script: Script;
  readonly answers: readonly Answer[];
  /** Undefined when all is answered. */
  readonly question: Question | undefined;
  readonly line: EditedLine;
  /** Which of the offers is chosen. */
  readonly picked: number | undefined;
  /** What was wrong with the last answer, or odd about it; empty for nothing. */
  readonly message: string;
  /** Answers that were taken back, by key; they are offered again. */
  readonly earlier: ReadonlyMap<string, string>;
  /** The answer that was refused or taken back last, and stands in the line; empty for none. */
  readonly refused: string;
  /** How far what stands above the question is moved down, in lines, to see its beginning. */
  readonly lift: number;
  /** Set when it ends before all is answered: given up, or gone back from the first question. */
  readonly end?: 'cancelled' | 'back' | undefined;
}

/** The word that goes one question back. */
const BACK = '<';
/** The word that leaves a question with a default out. */
const LEAVE_OUT = '-';

/** Begins with a script's first question, or goes on with answers that there are already. */
export function begin(script: Script, answers: readonly Answer[] = []): QuestionState {
  const earlier = new Map<string, string>();
  const question = script(answers);
  const line = EMPTY_LINE;
  const state = { picked: undefined, message: '', refused: '', earlier, lift: 0 };
  return { script, answers, question, line, ...state };
}

/** The state after a key. */
export function press(asking: QuestionState, key: Key): QuestionState {
  return asking.question && !asking.end ? PRESSED[key.name](asking, key) : asking;
}

const PRESSED: Readonly<Record<KeyName, (asking: QuestionState, key: Key) => QuestionState>> = {
  text: (asking, { text }) => edited(asking, insert(lineToTypeOn(asking), text)),
  enter,
  complete,
  next: (asking) => pick(asking, 1),
  previous: (asking) => pick(asking, -1),
  left: (asking) => ({ ...asking, line: move(asking.line, -1) }),
  right: (asking) => ({ ...asking, line: move(asking.line, 1) }),
  home: (asking) => ({ ...asking, line: { ...asking.line, at: 0 } }),
  end: (asking) => ({ ...asking, line: lineAtEnd(asking.line.text) }),
  backspace: (asking) => edited(asking, eraseBefore(asking.line)),
  delete: (asking) => edited(asking, eraseAt(asking.line)),
  empty: (asking) => edited(asking, EMPTY_LINE),
  'empty-word': (asking) => edited(asking, eraseWord(asking.line)),
  cancel: (asking) => ({ ...asking, end: 'cancelled' }),
  resize: (asking) => asking,
};

// A short answer that was refused gives way to the next one; a sentence is typed on.
function lineToTypeOn({ question, line, refused }: QuestionState): EditedLine {
  const isRefused = refused !== '' && line.text === refused && line.at === refused.length;
  return isRefused && question?.isList === false ? EMPTY_LINE : line;
}

/** What may be chosen for the line as it is typed. */
function offersOf({ question, line }: QuestionState): readonly Offer[] {
  return question?.offers(line.text) ?? [];
}

/** The offer that Enter takes: the chosen one, or the only one that is left of a closed choice. */
export function pickedOf(asking: QuestionState): number | undefined {
  if (asking.picked !== undefined || !asking.question?.isClosed) return asking.picked;
  if (asking.line.text.trim() === '') return undefined;
  const offers = offersOf(asking);
  const exact = offers.findIndex(({ line }) => isSameAnswer(line, asking.line.text));
  if (exact >= 0) return exact;
  return offers.length === 1 ? 0 : undefined;
}

function isSameAnswer(a: string, b: string): boolean {
  return a.toLowerCase() === b.trim().toLowerCase();
}

/** The default of a question: an answer that was taken back stands over the question's own. */
function fallbackOf({ question, earlier }: QuestionState): string {
  if (!question) return '';
  return question.isList ? '' : (earlier.get(question.key) ?? question.fallback);
}

function edited(asking: QuestionState, line: EditedLine): QuestionState {
  return { ...asking, line, picked: undefined, message: '' };
}

// Where there is nothing to choose, the same keys show what has gone out of sight above.
function pick(asking: QuestionState, step: -1 | 1): QuestionState {
  const { length } = offersOf(asking);
  if (length === 0) return { ...asking, lift: Math.max(0, asking.lift - step) };
  const from = asking.picked ?? (step > 0 ? -1 : length);
  const picked = from + step;
  return { ...asking, picked: picked < 0 || picked >= length ? undefined : picked };
}

// In an open line a choice goes on being typed at once, as people know it from their shell.
function complete(asking: QuestionState): QuestionState {
  const offer = offersOf(asking)[asking.picked ?? 0];
  if (!offer || asking.question?.isClosed) return pick(asking, 1);
  return edited(asking, lineAtEnd(offer.line));
}

function enter(asking: QuestionState): QuestionState {
  const { question, line, refused } = asking;
  if (!question) return asking;
  const typed = line.text.trim();
  // A line that was refused or taken back stays to be mended, so the word for going back may stand behind it.
  if (typed === BACK || (refused !== '' && typed === refused + BACK)) return goBack(asking);
  const picked = pickedOf(asking);
  const offer = picked === undefined ? undefined : offersOf(asking)[picked];
  if (offer && !question.isClosed) return { ...edited(asking, lineAtEnd(offer.line)), lift: 0 };
  if (offer) return answer(asking, question, offer.line);
  if (typed === '') return enterEmpty(asking, question);
  const isLeftOut = typed === LEAVE_OUT && question.mayBeEmpty && !question.isList;
  return isLeftOut ? accept(asking, question, LEFT_OUT) : answer(asking, question, typed);
}

interface Accepted extends TakenAnswer {
  readonly text: string;
}

const LEFT_OUT: Accepted = { text: '', gives: [], left: '', right: '', warning: '' };

function enterEmpty(asking: QuestionState, question: Question): QuestionState {
  const fallback = fallbackOf(asking);
  if (fallback !== '') return answer(asking, question, fallback);
  if (question.mayBeEmpty) return accept(asking, question, LEFT_OUT);
  const what = question.isList ? 'at least one line is needed' : 'an answer is needed here';
  return { ...asking, message: `${what}; < goes back, Ctrl-C gives up` };
}

function answer(asking: QuestionState, question: Question, text: string): QuestionState {
  const verdict = question.judge(text);
  if ('refused' in verdict)
    return { ...asking, picked: undefined, message: verdict.refused, refused: text };
  return accept(asking, question, { ...verdict, text });
}

function accept(asking: QuestionState, question: Question, accepted: Accepted): QuestionState {
  const { key, prompt, isList } = question;
  const answers = [...asking.answers, { ...accepted, key, prompt, isList }];
  const earlier = new Map(asking.earlier);
  earlier.delete(key);
  return asked({ ...asking, answers, earlier, message: accepted.warning });
}

/** Goes one step back from wherever it ended; from the first question there is no way further. */
export function stepBack(asking: QuestionState): QuestionState {
  const open = { ...asking, end: undefined };
  if (asking.answers.length > 0) return goBack(open);
  return { ...asked(open), message: 'this is the first question; Ctrl-C gives up' };
}

function goBack(asking: QuestionState): QuestionState {
  const last = asking.answers.at(-1);
  if (!last) return { ...asking, end: 'back' };
  const earlier = new Map(asking.earlier);
  if (!last.isList && last.text !== '') earlier.set(last.key, last.text);
  const answers = asking.answers.slice(0, -1);
  const back = asked({ ...asking, answers, earlier, message: '' });
  const isLine = last.isList && last.text !== '';
  return isLine
    ? {
        ...back,
        line: lineAtEnd(last.text),
        refused: last.text,
        message: 'this line was taken back: change it, or empty it with Ctrl-U',
      }
    : back;
}

function asked(asking: QuestionState): QuestionState {
  const question = asking.script(asking.answers);
  return { ...asking, question, line: EMPTY_LINE, picked: undefined, refused: '', lift: 0 };
}

/** A line that stays: an answer, and what stands at the right of it. */
interface FrameLine {
  readonly left: string;
  readonly right: string;
}

/** A choice below the question. */
interface FrameOffer {
  readonly label: string;
  readonly note: string;
}

/** The whole of it, from top to bottom. */
interface Frame {
  readonly head: string;
  readonly done: readonly FrameLine[];
  readonly prompt: string;
  readonly about: string;
  readonly line: { readonly text: string; readonly at: number };
  readonly message: string;
  readonly offers: readonly FrameOffer[];
  readonly picked: number | undefined;
  readonly lift: number;
}

/** What stands above all questions, and above the answers. */
export interface Above {
  readonly head: string;
  readonly lines: readonly string[];
}

/** The frame of a state. */
export function frameOf(asking: QuestionState, { head, lines }: Above): Frame {
  const { question, answers, line, message, lift } = asking;
  const fallback = fallbackOf(asking);
  const inBrackets = fallback === '' ? '' : ` [${fallback}]`;
  return {
    head,
    done: [
      ...lines.map((left) => ({ left, right: '' })),
      ...answers.filter(({ text }) => text !== '').map(doneLine),
    ],
    prompt: question ? `${question.prompt}${inBrackets}` : '',
    about: question?.about ?? '',
    line,
    message,
    offers: offersOf(asking),
    picked: pickedOf(asking),
    lift,
  };
}

function doneLine({ prompt, left, right, isList }: QuestionState['answers'][number]): FrameLine {
  return { left: isList ? `  ${left}` : `${prompt}: ${left}`, right };
}
