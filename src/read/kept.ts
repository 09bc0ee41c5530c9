/** Answers that are kept, one in a file with its question and a checksum: whatever is odd is passed over. */
import { digestOf } from '../digest.ts';
import type { Store } from '../memory/store.ts';

/** What was found of one state of a studio, by what was asked. */
export interface Kept {
  readonly recall: (words: string) => unknown;
  /** Keeps what JSON can hold. */
  readonly keep: (words: string, answer: unknown) => void;
}

/** The answer that is kept under a name to a question; undefined where another is, or nothing sound. */
export function readAnswer(store: Store, name: string, question: string): unknown {
  try {
    const [sum, asked, json = ''] = store.read(name)?.toString('utf8').split('\n') ?? [];
    return sum === digestOf(json) && asked === question ? (JSON.parse(json) as unknown) : undefined;
  } catch {
    return undefined;
  }
}

/** Keeps an answer, given as what JSON can hold, under a name; the question must be one line. */
export function writeAnswer(
  store: Store,
  name: string,
  { question, answer }: { readonly question: string; readonly answer: unknown },
): void {
  const json = JSON.stringify(answer);
  store.write(name, [digestOf(json), question, json].join('\n'));
}
