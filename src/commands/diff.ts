/** What `--dry-run` shows: changes of files as a diff, whatever the files are called and hold. */
import { visible } from '../render/escape.ts';
import { printedLayout, type Printable } from '../render/printable.ts';
import { unifiedDiff, type FileChange } from '../write/diff.ts';

/** The diffs of some files below each other; a line end in a file's name begins no line. */
export function diffOf(changes: readonly FileChange[]): Printable {
  const diffs = changes.map((change) => unifiedDiff({ ...change, file: visible(change.file) }));
  return printedLayout(diffs.join(''));
}
