/** Reads a tax sheet of the studio's own as a commit has it. */
import { posix } from 'node:path';
import { tooLarge } from '../disk.ts';
import { leadsUpwards } from '../sheet-state.ts';
import { missingSheet, outsideSheet, unreadSheet, type SheetText } from '../tax-sheet.ts';
import { decodeText } from '../text.ts';
import { readBlobs } from './blobs.ts';
import type { Commit, Repository } from './repository.ts';
import { blobAt } from './tree.ts';

/** The sheets that a commit has; a link in it is not followed. */
export function sheetsInCommit(repository: Repository, commit: Pick<Commit, 'id'>): SheetText {
  return async (file) => {
    if (leadsUpwards(file)) return outsideSheet(file);
    const id = blobAt(repository, commit, posix.normalize(file));
    const blobs = await readBlobs(repository, id === undefined ? [] : [id]);
    const blob = 'refused' in blobs ? undefined : blobs.get(id ?? '');
    if (blob === undefined) return missingSheet(file);
    if ('tooLarge' in blob) return unreadSheet(tooLarge(file, blob.tooLarge));
    const text = decodeText(file, blob);
    return typeof text === 'string' ? text : unreadSheet(text);
  };
}
