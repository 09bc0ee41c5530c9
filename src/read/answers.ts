/** Answers that were given before, kept for as long as no file of the studio has changed since. */
import { Buffer } from 'node:buffer';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { cacheFolder, diskTime } from './cache.ts';
import { stampOf } from './disk.ts';
import type { ListedFile } from './find.ts';
import { putInPlace, readKept, sumOf, writeKept, type Kept } from './kept.ts';
import { isSettled, stateAfter, stateOf, type StudioState, type Written } from './state.ts';

/** What is asked, and of what: anything that the answer depends on beside the studio's files. */
export interface Question {
  readonly studioDir: string;
  /** Names the program's version and its schemas. */
  readonly stamp: string;
  readonly words: string;
}

/** The answer to one question. */
export interface Answers {
  /** What was kept, where every file is as it was then; undefined otherwise. */
  readonly recall: () => unknown;
  /** Keeps an answer, given as what JSON can hold, where all files were settled before it was found. */
  readonly keep: (answer: unknown) => void;
  /** Other answers on the same state; to be asked for before the files are read. */
  readonly others: () => Kept;
}

const FOLDER = 'answers';
/** Tells what state of the studio the answers beside it are of. */
const STATE_FILE = 'state';

/** Looks for the answer to a question. Like the cache a hint only: whatever is odd, it is passed over. */
export function openAnswers({ studioDir, stamp, words }: Question): Answers {
  const state = stateOf(studioDir);
  const question = JSON.stringify([stamp, words]);
  let time: number | undefined;
  return {
    recall: () => {
      const kept = state && readAnswer(studioDir, state.bytes, question);
      if (kept === undefined) time = diskTime(studioDir);
      return kept;
    },
    keep: (answer) => {
      const tag = state && isSettled(state, time) ? roomFor(studioDir, state.bytes) : undefined;
      if (tag !== undefined) writeTagged(studioDir, tag, { question, answer });
    },
    others: () => keptOf(state, diskTime(studioDir), { studioDir, stamp }),
  };
}

/** What was found of a studio in the state that it is in. */
export interface KeptOfStudio extends Kept {
  /** The files that hold records, and the settings; none where the state can't be told. */
  readonly files: readonly ListedFile[];
  /**
   * The same of the state that the program itself has brought about. Undefined where a file that it
   * wrote has been changed meanwhile; where any other has, nobody will ask for what is kept of it.
   */
  readonly after: (written: Written) => Kept | undefined;
}

/**
 * Several answers on the studio as it is now. To be opened before its files are read: what is kept is
 * of the state that they are in at this moment.
 */
export function keptOfStudio(about: Omit<Question, 'words'>): KeptOfStudio {
  const { studioDir } = about;
  const state = stateOf(studioDir);
  const time = diskTime(studioDir);
  return {
    ...keptOf(state, time, about),
    files: state?.files ?? [],
    after: (written) => {
      const later = passTick(studioDir, written);
      const isSure = state !== undefined && isSettled(state, time);
      const now = isSure ? stateAfter(state, studioDir, written) : undefined;
      const isMine = [...written].every(([file, text]) => textIn(studioDir, file) === text);
      return now && isMine ? keptOf(now, later, about) : undefined;
    },
  };
}

function keptOf(
  state: StudioState | undefined,
  time: number | undefined,
  { studioDir, stamp }: Omit<Question, 'words'>,
): Kept {
  const questionOf = (words: string): string => JSON.stringify([stamp, words]);
  // The state of a large studio is a long text, which several answers need not be held against.
  let tag: string | undefined;
  return {
    recall: (words) => {
      tag ??= state && tagIn(answersIn(studioDir), state.bytes);
      return tag === undefined ? undefined : readTagged(studioDir, tag, questionOf(words));
    },
    keep: (words, answer) => {
      if (!state || !isSettled(state, time)) return;
      tag ??= roomFor(studioDir, state.bytes);
      if (tag !== undefined) writeTagged(studioDir, tag, { question: questionOf(words), answer });
    },
  };
}

/** The most looks at the disk's clock, which moves on every few milliseconds. */
const MOST_LOOKS = 200;

/**
 * Waits until the disk's clock has moved on since the files were written: from then on a change shows.
 * Returns what it shows; undefined where it can't be read, or stands still.
 */
function passTick(studioDir: string, written: Written): number | undefined {
  const times = [...written.keys()].map((file) => stampOf(`${studioDir}/${file}`)?.changed ?? 0);
  const newest = Math.max(0, ...times);
  for (let look = 0; look < MOST_LOOKS; look += 1) {
    const time = diskTime(studioDir);
    if (time === undefined || time > newest) return time;
  }
  return undefined;
}

function textIn(studioDir: string, file: string): string | undefined {
  try {
    return readFileSync(`${studioDir}/${file}`, 'utf8');
  } catch {
    return undefined;
  }
}

function readAnswer(studioDir: string, state: Buffer, question: string): unknown {
  const tag = tagIn(answersIn(studioDir), state);
  return tag === undefined ? undefined : readTagged(studioDir, tag, question);
}

function readTagged(studioDir: string, tag: string, question: string): unknown {
  return readKept(`${answersIn(studioDir)}/${nameOf(question)}`, `${tag} ${question}`);
}

function answersIn(studioDir: string): string {
  return `${studioDir}/.saggar/${FOLDER}`;
}

// An answer says of which state it is, in case another run has changed that since.
function writeTagged(
  studioDir: string,
  tag: string,
  { question, answer }: { readonly question: string; readonly answer: unknown },
): void {
  try {
    const path = `${answersIn(studioDir)}/${nameOf(question)}`;
    writeKept(cacheFolder(studioDir), { path, question: `${tag} ${question}`, answer });
  } catch {
    // A studio that can't be written to is answered anew each time.
  }
}

/** Answers of another state are of no use any more. Returns the state's tag; undefined without room. */
function roomFor(studioDir: string, state: Buffer): string | undefined {
  const folder = answersIn(studioDir);
  const known = tagIn(folder, state);
  if (known !== undefined) return known;
  try {
    const own = cacheFolder(studioDir);
    rmSync(folder, { recursive: true, force: true });
    mkdirSync(folder);
    const tag = sumOf(state.toString('latin1'));
    putInPlace(own, `${folder}/${STATE_FILE}`, Buffer.concat([Buffer.from(`${tag}\n`), state]));
    return tag;
  } catch {
    return undefined;
  }
}

/** The tag of the state that the answers are of, where it is the given one; it stands before the state. */
function tagIn(folder: string, state: Buffer): string | undefined {
  try {
    const kept = readFileSync(`${folder}/${STATE_FILE}`);
    const end = kept.indexOf('\n');
    return kept.subarray(end + 1).equals(state) ? kept.toString('latin1', 0, end) : undefined;
  } catch {
    return undefined;
  }
}

/** Two questions of one name overwrite each other's answer and never take it for their own. */
function nameOf(question: string): string {
  return `answer-${sumOf(question)}`;
}
