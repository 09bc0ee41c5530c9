/** What was once found of a commit, kept beside the cache: a commit never changes. */
import { mkdirSync } from 'node:fs';
import { cacheFolder } from '../cache.ts';
import { readKept, sumOf, writeKept, type Kept } from '../kept.ts';
import type { Commit, Repository } from './repository.ts';

/** Which studio in which commit, and the program that looks at it. */
export interface CommitState {
  readonly studioDir: string;
  /** Names the program's version and its schemas. */
  readonly stamp: string;
  readonly repository: Pick<Repository, 'prefix'>;
  readonly commit: Pick<Commit, 'id'>;
  /** The files that were listed in it, each with its content's id, in case git was told to take another for it. */
  readonly blobs: ReadonlyMap<string, string>;
}

const FOLDER = 'commits';

/** So many answers are kept: a new one takes the place of an old one, whichever it falls on. */
const PLACES = 64;

/** Like the cache a hint only: whatever is odd about it, it is passed over. */
export function keptOfCommit(state: CommitState): Kept {
  const { studioDir, stamp, repository, commit } = state;
  const files = sumOf([...state.blobs].flat().join('\n'));
  const questionOf = (words: string): string =>
    JSON.stringify([stamp, commit.id, repository.prefix, files, words]);
  return {
    recall: (words) => {
      const question = questionOf(words);
      return readKept(`${studioDir}/.saggar/${FOLDER}/${placeOf(question)}`, question);
    },
    keep: (words, answer) => {
      try {
        const own = cacheFolder(studioDir);
        mkdirSync(`${own}/${FOLDER}`, { recursive: true });
        const question = questionOf(words);
        writeKept(own, { path: `${own}/${FOLDER}/${placeOf(question)}`, question, answer });
      } catch {
        // In a studio that can't be written to it is found anew each time.
      }
    },
  };
}

function placeOf(question: string): string {
  return `commit-${parseInt(sumOf(question), 16) % PLACES}`;
}
