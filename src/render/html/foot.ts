/** What the foot of every page says. */
import { revisionWords } from '../../in-words.ts';
import type { TableHead } from '../../report/table.ts';

/** Whose book, and in which state: that of a commit, or of files with this digest. */
export function footOf({
  studio,
  asOf,
  revision,
  digest,
}: Pick<TableHead, 'studio' | 'asOf' | 'revision' | 'digest'>): string {
  const book = `the book${studio === '' ? '' : ` of ${studio}`}`;
  const at = revision === undefined ? '' : `, ${revisionWords(revision)}`;
  const files =
    revision !== undefined || digest === undefined
      ? ''
      : ` The digest of its files is ${digest()}: the same files give the same signs.`;
  return `Made by saggar from ${book} as it stood on ${asOf}${at}.${files}`;
}
