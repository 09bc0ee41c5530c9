/** What is shown and said of records that were added. */
import type { Added } from '../entry/put.ts';

/** The words for it; the command that takes it back does so by the ids. */
export function wordsFor(added: readonly Added[]): {
  readonly shown: readonly string[];
  readonly done: string;
  readonly undo: readonly string[];
} {
  const files = [...new Set(added.map(({ file }) => file))];
  const ids = added.map(({ id }) => id);
  return {
    shown: added.map(({ text }) => text),
    done: `Added ${ids.join(', ')} to ${files.join(', ')}`,
    undo: ids.map((id) => `remove ${id}`),
  };
}
