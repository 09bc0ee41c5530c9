/** What git makes of a merge of two commits, without merging them: nothing in the repository is touched. */
import type { Beside } from './beside.ts';
import { noAnswer, partialClone, type Commit, type NoAnswer } from './repository.ts';
import { runGit } from './run.ts';

/** What the merge would give. */
export interface Merged {
  /** The files as they would be; what two sides have changed otherwise is in its file with both versions. */
  readonly tree: Commit;
  readonly conflicts: readonly MergeConflict[];
}

/** A file of the repository of which git can't bring the two versions together. */
export interface MergeConflict {
  /** From the root of the repository's tree. */
  readonly path: string;
  /** Which of the two commits have the file; undefined where both versions are in it, between markers. */
  readonly heldBy?: { readonly into: boolean; readonly from: boolean };
}

/** The two commits. */
interface Merging {
  readonly into: Commit;
  readonly from: Commit;
}

/**
 * Merges one commit into the other. Undefined where git is too old to do so without a working tree, which
 * it is before 2.38.
 */
export function mergeOf(
  { place, repository, nameOf }: Beside,
  { into, from }: Merging,
): Merged | NoAnswer | undefined {
  const words = ['merge-tree', '--write-tree', '-z', '--messages', nameOf(into), nameOf(from)];
  const printed = runGit(place, words, { alsoFine: WITH_CONFLICTS });
  const failed = 'text' in printed ? 'it could not merge them' : printed.failed;
  if ('text' in printed && printed.text !== '')
    return mergedIn(printed.text, `${from.name} merged into ${into.name}`);
  if (failed.startsWith('usage:')) return undefined;
  return partialClone(repository) ?? { refused: noAnswer(into.name, failed) };
}

/** It has the status of some failures too, where git prints nothing. */
const WITH_CONFLICTS = 1;

/** The tree, then each version of what is in conflict, an empty word, and what git tells of each file. */
function mergedIn(text: string, name: string): Merged {
  const [id = '', ...words] = text.split('\0');
  const end = words.indexOf('');
  const versions = words.slice(0, end).map(versionIn);
  const marked = new Set(pathsWithMarkers(words.slice(end + 1)));
  const paths = [...new Set(versions.map(({ path }) => path))];
  const holds = (path: string, stage: string): boolean =>
    versions.some((each) => each.path === path && each.stage === stage);
  const conflicts = paths.map((path): MergeConflict => {
    const [into, from] = [holds(path, '2'), holds(path, '3')];
    return into && from && marked.has(path) ? { path } : { path, heldBy: { into, from } };
  });
  return { tree: { name, id }, conflicts };
}

/** `100644 5d61… 2<tab>sales.yaml`. */
function versionIn(line: string): { readonly stage: string; readonly path: string } {
  const tab = line.indexOf('\t');
  return { stage: line.slice(tab - 1, tab), path: line.slice(tab + 1) };
}

/** How many paths, the paths, what happened to them, and a sentence, each after the other. */
function pathsWithMarkers(words: readonly string[]): string[] {
  const found: string[] = [];
  for (let at = 0; at + 3 < words.length;) {
    const type = at + 1 + Number(words[at]);
    if (words[type] === 'CONFLICT (contents)') found.push(...words.slice(at + 1, type));
    at = type + 2;
  }
  return found;
}
