/** Answers that were given before, kept for as long as no file of the studio has changed since. */
import { mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { cacheFolder, diskTime } from './cache.ts';
import { stampOf, type Stamp } from './disk.ts';
import { listFiles } from './find.ts';
import { isSettled } from './memory.ts';

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
}

const FOLDER = 'answers';
/** Tells what state of the studio the answers beside it are of. */
const STATE_FILE = 'state';

/** What tells one state of a studio from another. */
interface StudioState {
  readonly text: string;
  readonly stamps: readonly Stamp[];
}

/** Looks for the answer to a question. Like the cache a hint only: whatever is odd, it is passed over. */
export function openAnswers({ studioDir, stamp, words }: Question): Answers {
  const state = stateOf(studioDir);
  const question = JSON.stringify([stamp, words]);
  let time: number | undefined;
  return {
    recall: () => {
      const kept = state && readAnswer(studioDir, state.text, question);
      if (kept === undefined) time = diskTime(studioDir);
      return kept;
    },
    keep: (answer) => {
      if (!state?.stamps.every((each) => isSettled(each, time))) return;
      writeAnswer(studioDir, state.text, { question, answer });
    },
  };
}

/** Undefined where it can't be told for certain: links, and folders that can't be read. */
function stateOf(studioDir: string): StudioState | undefined {
  const { files, strays, findings } = listFiles(studioDir);
  const stamps: Stamp[] = [];
  const lines = strays.map(({ file }) => file);
  for (const { file, linked } of files) {
    const stamp = linked ? undefined : stampOf(`${studioDir}/${file}`);
    if (!stamp) return undefined;
    stamps.push(stamp);
    const { size, modified, changed, inode } = stamp;
    lines.push(`${JSON.stringify(file)} ${size} ${modified} ${changed} ${inode}`);
  }
  return findings.length === 0 ? { text: lines.join('\n'), stamps } : undefined;
}

function readAnswer(studioDir: string, state: string, question: string): unknown {
  try {
    const folder = `${studioDir}/.saggar/${FOLDER}`;
    if (readFileSync(`${folder}/${STATE_FILE}`, 'utf8') !== state) return undefined;
    const [sum, asked, json = ''] = readFileSync(`${folder}/${nameOf(question)}`, 'utf8').split(
      '\n',
    );
    return sum === sumOf(json) && asked === askedIn(state, question)
      ? (JSON.parse(json) as unknown)
      : undefined;
  } catch {
    return undefined;
  }
}

function writeAnswer(
  studioDir: string,
  state: string,
  { question, answer }: { question: string; answer: unknown },
): void {
  try {
    const own = cacheFolder(studioDir);
    const place = mkdtempSync(`${own}/new-`);
    try {
      makeRoom(own, place, state);
      const json = JSON.stringify(answer);
      writeFileSync(`${place}/answer`, [sumOf(json), askedIn(state, question), json].join('\n'));
      renameSync(`${place}/answer`, `${own}/${FOLDER}/${nameOf(question)}`);
    } finally {
      rmSync(place, { recursive: true, force: true });
    }
  } catch {
    // A studio that can't be written to is answered anew each time.
  }
}

/** Answers of another state are of no use any more. */
function makeRoom(own: string, place: string, state: string): void {
  const folder = `${own}/${FOLDER}`;
  if (stateIn(folder) === state) return;
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
  writeFileSync(`${place}/${STATE_FILE}`, state);
  renameSync(`${place}/${STATE_FILE}`, `${folder}/${STATE_FILE}`);
}

function stateIn(folder: string): string | undefined {
  try {
    return readFileSync(`${folder}/${STATE_FILE}`, 'utf8');
  } catch {
    return undefined;
  }
}

/** Says the state too, in case another run changed it in between. */
function askedIn(state: string, question: string): string {
  return `${sumOf(state)} ${question}`;
}

/** Two questions of one name overwrite each other's answer and never take it for their own. */
function nameOf(question: string): string {
  return `answer-${sumOf(question)}`;
}

/** A checksum of a text: 32-bit FNV-1a over its code units. */
function sumOf(text: string): string {
  let sum = 0x811c9dc5;
  for (let index = 0; index < text.length; index += 1) {
    sum = Math.imul(sum ^ text.charCodeAt(index), 0x01000193);
  }
  return (sum >>> 0).toString(16).padStart(8, '0');
}
