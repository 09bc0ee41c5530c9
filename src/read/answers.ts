/** Answers that were given before, kept for as long as no file of the studio has changed since. */
import { createHash } from 'node:crypto';
import {
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
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

/** What tells one state of a studio from another; undefined where it can't be told for certain. */
interface StudioState {
  readonly hash: string;
  readonly stamps: readonly Stamp[];
}

/** Looks for the answer to a question. Like the cache a hint only: whatever is odd, it is passed over. */
export function openAnswers({ studioDir, stamp, words }: Question): Answers {
  const state = stateOf(studioDir);
  const name = hashOf([stamp, words]);
  let time: number | undefined;
  return {
    recall: () => {
      const kept = state && readAnswer(`${studioDir}/.saggar/${FOLDER}/${state.hash}/${name}`);
      if (kept === undefined) time = diskTime(studioDir);
      return kept;
    },
    keep: (answer) => {
      if (!state?.stamps.every((each) => isSettled(each, time))) return;
      writeAnswer(studioDir, `${state.hash}/${name}`, answer);
    },
  };
}

function stateOf(studioDir: string): StudioState | undefined {
  const { files, strays, findings } = listFiles(studioDir);
  const known: Stamp[] = [];
  const lines: string[] = strays.map(({ file }) => file);
  for (const { file, linked } of files) {
    const stamp = linked ? undefined : stampOf(`${studioDir}/${file}`);
    if (!stamp) return undefined;
    known.push(stamp);
    const { size, modified, changed, inode } = stamp;
    lines.push(`${file}\n${size} ${modified} ${changed} ${inode}`);
  }
  return findings.length === 0 ? { hash: hashOf(lines), stamps: known } : undefined;
}

function hashOf(parts: readonly string[]): string {
  return createHash('sha256').update(parts.join('\n\n')).digest('hex').slice(0, 32);
}

function readAnswer(path: string): unknown {
  try {
    const [, sum, json = ''] = /^([0-9a-f]{32}) (.*)$/s.exec(readFileSync(path, 'utf8')) ?? [];
    return sum === hashOf([json]) ? (JSON.parse(json) as unknown) : undefined;
  } catch {
    return undefined;
  }
}

/** Answers of other states are of no use any more: only those of this one are left. */
function writeAnswer(studioDir: string, path: string, answer: unknown): void {
  try {
    const own = cacheFolder(studioDir);
    const place = mkdtempSync(`${own}/new-`);
    try {
      const json = JSON.stringify(answer);
      writeFileSync(`${place}/answer`, `${hashOf([json])} ${json}`);
      forgetOthers(own, path);
      renameSync(`${place}/answer`, `${own}/${FOLDER}/${path}`);
    } finally {
      rmSync(place, { recursive: true, force: true });
    }
  } catch {
    // A studio that can't be written to is answered anew each time.
  }
}

function forgetOthers(own: string, path: string): void {
  const [state = ''] = path.split('/');
  const folder = `${own}/${FOLDER}`;
  mkdirSync(folder, { recursive: true });
  for (const other of readdirSync(folder)) {
    if (other !== state) rmSync(`${folder}/${other}`, { recursive: true, force: true });
  }
  mkdirSync(`${folder}/${state}`, { recursive: true });
}
