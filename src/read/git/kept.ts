/** What was once found of a studio in a commit, kept in the memory: its files never change. */
import { digestOf } from '../../digest.ts';
import type { Store } from '../../memory/store.ts';
import { readAnswer, writeAnswer, type Kept } from '../kept.ts';
import type { CommitReading } from './commit.ts';

/** Which files of a studio a commit has, and where it is remembered what they come to. */
export interface CommitState {
  readonly store: Store | undefined;
  readonly reading: Pick<CommitReading, 'blobs' | 'findings'>;
}

/** So many answers are kept: a new one takes the place of an old one, whichever it falls on. */
const PLACES = 64;

/**
 * Like the cache a hint only: whatever is odd about it, it is passed over. Undefined where nothing is
 * remembered, or where part of the commit can't be read here.
 */
export function keptOfCommit({ store, reading }: CommitState): Kept | undefined {
  if (!store || reading.findings.length > 0) return undefined;
  // What git gives for a commit can be replaced; the files themselves say what was looked at.
  const files = digestOf(JSON.stringify([...reading.blobs]));
  const questionOf = (words: string): string => JSON.stringify([store.stamp, files, words]);
  return {
    recall: (words) => {
      const question = questionOf(words);
      return readAnswer(store, placeOf(question), question);
    },
    keep: (words, answer) => {
      const question = questionOf(words);
      writeAnswer(store, placeOf(question), { question, answer });
    },
  };
}

function placeOf(question: string): string {
  return `commit-${parseInt(digestOf(question).slice(0, 8), 16) % PLACES}`;
}
