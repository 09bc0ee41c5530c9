/** What a question is, what answers it, and what may be typed. */
import type { Path } from '../../read/raw.ts';

/** What a key does, whatever the terminal sends for it. */
export type KeyName =
  | 'text'
  | 'paste'
  | 'enter'
  | 'complete'
  | 'next'
  | 'previous'
  | 'up'
  | 'down'
  | 'left'
  | 'right'
  | 'home'
  | 'end'
  | 'backspace'
  | 'delete'
  | 'empty'
  | 'empty-word'
  | 'back'
  | 'cancel'
  | 'resize';

/** One key; only `text` and `paste` bring text, the latter with its line ends. */
export interface Key {
  readonly name: KeyName;
  readonly text: string;
}

/** Something that may be chosen. */
export interface Offer {
  /** What the whole line is once it is chosen. */
  readonly line: string;
  readonly label: string;
  /** What there is to say of it: a name, how many stand ready. */
  readonly note: string;
}

/** An answer that is taken, or the one line that says why not. */
export type JudgedAnswer = TakenAnswer | { readonly refused: string };

/** What comes of an answer that is taken. */
export interface TakenAnswer {
  /** The options of the command line that say the same, each followed by its value. */
  readonly gives: readonly string[];
  /** The answer as it stays on the screen, and its price or space with the running total. */
  readonly left: string;
  readonly right: string;
  /** What is odd about it all the same; empty for nothing. */
  readonly warning: string;
}

/** One question. */
export interface Question {
  /** Tells questions apart: of all lines of a list it is the same. */
  readonly key: string;
  /** The field's name in words. */
  readonly prompt: string;
  /** One line on what it is and how an answer reads, nothing on keys; empty where the name says it. */
  readonly about: string;
  /** Where the answer goes in the record, of a list its next line; absent where the record has no place for it. */
  readonly path?: Path;
  /** What an empty line means; empty for nothing. */
  readonly fallback: string;
  /** Whether it may be left without an answer; of a list, whether it may end here. */
  readonly mayBeEmpty: boolean;
  /** Whether it is asked again after each answer until an empty line ends it. */
  readonly isList: boolean;
  /** Whether it is passed over, and only asked once it is chosen to be changed. */
  readonly isAside?: boolean;
  /** Whether an answer is one of the offers. */
  readonly isClosed: boolean;
  /** What may be chosen for a line as far as it is typed. */
  readonly offers: (line: string) => readonly Offer[];
  readonly judge: (line: string) => JudgedAnswer;
  /** Where in the record the thing is that an offer's line chooses; absent where the offers are not of it. */
  readonly marks?: (line: string) => Path | undefined;
}

/** An answer that was taken; an empty text leaves a field out or ends a list. */
export interface Answer extends TakenAnswer {
  readonly key: string;
  readonly text: string;
  readonly prompt: string;
  readonly path?: Path | undefined;
  readonly isList: boolean;
}

/** The next question after some answers; undefined when there is nothing left to ask. */
export type Script = (answers: readonly Answer[]) => Question | undefined;

/** A question of one line without choices; it may be left out where an empty line means nothing. */
export function question(
  asked: Pick<Question, 'key' | 'prompt' | 'about' | 'fallback' | 'judge'> & Partial<Question>,
): Question {
  const usual = { isList: false, isClosed: false, offers: () => [] };
  return { mayBeEmpty: asked.fallback === '', ...usual, ...asked };
}

/** Taken as it is, without a word about it. */
export function takenAnswer(gives: readonly string[], left: string): TakenAnswer {
  return { gives, left, right: '', warning: '' };
}

/** Whether the question of a key is done with: answered, or of a list, ended. */
export function isDone(answers: readonly Answer[], key: string): boolean {
  return answers.some((answer) => answer.key === key && (!answer.isList || answer.text === ''));
}

/** The text of the first answer to a key's question; empty where there is none. */
export function answerText(answers: readonly Answer[], key: string): string {
  return answers.find((answer) => answer.key === key)?.text ?? '';
}
