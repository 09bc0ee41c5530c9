/** What was once found of a commit, kept beside the cache: a commit never changes. */
import { mkdirSync } from 'node:fs';
import { cacheFolder } from '../cache.ts';
import { readKept, sumOf, writeKept, type Kept } from '../kept.ts';
import type { CommitReading } from './commit.ts';
import type { Commit, Repository } from './repository.ts';

/** Which studio in which commit, and the program that looks at it. */
export interface CommitState {
  readonly studioDir: string;
  /** Names the program's version and its schemas. */
  readonly stamp: string;
  readonly repository: Pick<Repository, 'prefix' | 'isBare'>;
  readonly commit: Pick<Commit, 'id'>;
  readonly reading: Pick<CommitReading, 'blobs' | 'findings'>;
}

const FOLDER = 'commits';

/** So many answers are kept: a new one takes the place of an old one, whichever it falls on. */
const PLACES = 64;

/**
 * Like the cache a hint only: whatever is odd about it, it is passed over. Undefined where a bare
 * repository has no place for it, or where part of the commit can't be read here.
 */
export function keptOfCommit(state: CommitState): Kept | undefined {
  const { studioDir, stamp, repository, commit, reading } = state;
  if (repository.isBare || reading.findings.length > 0) return undefined;
  // Git can be told to take other content for a commit's.
  const files = sumOf([...reading.blobs].flat().join('\n'));
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
