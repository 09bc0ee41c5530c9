/** Reads a studio as a commit has it, from git's objects: nothing is checked out. */
import type { Finding } from '../../problem.ts';
import { tooLarge, type Source, type Stamp } from '../disk.ts';
import type { ListedFile } from '../find.ts';
import { type Recalled } from '../kept/kept-files.ts';
import { wholeFile } from '../lines.ts';
import { NO_MEMORY, type Memory } from '../kept/memory.ts';
import { readShelf, type ReadingTold, type StudioReading } from '../read.ts';
import { decodeText } from '../text.ts';
import { readBlobs, sheetsInCommit, type Blob } from './blobs.ts';
import { compareWithDisk, type OnDisk } from './on-disk.ts';
import type { Commit, NoAnswer, Repository } from './repository.ts';
import { askGit } from './run.ts';
import { listCommit, type CommitListing, type PassedOver } from './tree.ts';

/** A studio's files as a commit has them. */
export interface CommitReading extends StudioReading {
  /** File → id of its content. */
  readonly blobs: ReadonlyMap<string, string>;
  /** Id of a file's content; undefined for a file that the commit does not have. */
  readonly blobOf: (file: string) => string | undefined;
  /** The text of a file, without byte order mark. */
  readonly textOf: (file: string) => string | undefined;
  readonly passedOver: readonly PassedOver[];
  /** What could not be compared with the disk, where that was asked for. */
  readonly uncompared: OnDisk['uncompared'];
}

/** A state of the studio that was read and checked, to take the files from that are the same there. */
interface ReadBefore {
  /** Whether a file with this content is the same there, and was found clean. */
  readonly isSame: (file: string, blob: string) => boolean;
  readonly fileOf: (file: string) => Recalled | undefined;
}

/** What is known already of some of the files. */
interface Known {
  readonly before?: ReadBefore;
  /** The studio's folder and what is remembered of it, for the files that are on the disk as in the commit. */
  readonly disk?: { readonly studioDir: string; readonly memory: Memory };
  readonly told?: ReadingTold | undefined;
}

/** Reads the studio in a commit, or says why git can't give it. */
export async function readCommit(
  repository: Repository,
  commit: Commit,
  known: Known = {},
): Promise<CommitReading | NoAnswer> {
  const listing = listCommit(repository, commit);
  if ('refused' in listing) return listing;
  const onDisk = known.disk && compareFiles(repository, listing);
  const recall = recallOf(listing, known, onDisk?.same);
  const kept = new Map(listing.files.map((listed) => [listed.file, recall(listed)]));
  const missing = listing.files.filter(({ file }) => !kept.get(file));
  const ids = missing.map(({ file }) => listing.blobs.get(file) ?? '');
  const blobs = await readBlobs(repository, ids);
  if ('refused' in blobs) return blobs;
  const memory: Memory = { ...NO_MEMORY, recall: ({ file }) => kept.get(file) };
  const sourceOf = (file: string): Source | Finding => sourceIn(listing, blobs, file);
  const sheetText = sheetsInCommit(repository, commit);
  const reading = await readShelf({ listing, memory, sourceOf, sheetText, told: known.told });
  return {
    ...reading,
    blobs: listing.blobs,
    blobOf: (file) => listing.blobs.get(file),
    textOf: (file) => textInCommit(repository, listing, { blobs, file }),
    passedOver: listing.passedOver,
    uncompared: onDisk?.uncompared ?? new Map(),
  };
}

/** How the disk has the files that a commit has of the studio. */
export function compareFiles(repository: Repository, { files, blobs }: CommitListing): OnDisk {
  const ids = files.map(({ file }): [string, string] => [file, blobs.get(file) ?? '']);
  return compareWithDisk(repository, { blobs: new Map(ids) });
}

const NO_STAMP: Stamp = { size: 0, modified: 0, changed: 0, inode: 0 };

type Recall = (listed: ListedFile) => Recalled | undefined;

function recallOf(
  { blobs }: CommitListing,
  { before, disk }: Known,
  onDisk: OnDisk['same'] | undefined,
): Recall {
  return (listed) => {
    const { file, kind } = listed;
    const known = before?.isSame(file, blobs.get(file) ?? '') ? before.fileOf(file) : undefined;
    if (known?.kind === kind) return known;
    return onDisk?.has(file) ? disk?.memory.recall(listed) : undefined;
  };
}

function sourceIn(
  { blobs: ids }: CommitListing,
  blobs: ReadonlyMap<string, Blob>,
  file: string,
): Source | Finding {
  const blob = blobs.get(ids.get(file) ?? '');
  if (!blob) return missing(file);
  if ('tooLarge' in blob) return tooLarge(file, blob.tooLarge);
  const text = decodeText(file, blob);
  return typeof text === 'string' ? { text, stamp: NO_STAMP } : text;
}

function missing(file: string): Finding {
  return {
    rule: 'unreadable-file',
    severity: 'error',
    at: wholeFile(file),
    message: 'git does not have its content here',
    hint: 'fetch the commit with all its files; git fsck says what is missing',
  };
}

function textInCommit(
  repository: Repository,
  listing: CommitListing,
  { blobs, file }: { readonly blobs: ReadonlyMap<string, Blob>; readonly file: string },
): string | undefined {
  const id = listing.blobs.get(file);
  if (id === undefined) return undefined;
  if (!blobs.has(id)) return askGit(repository, ['cat-file', 'blob', id])?.replace(/^\ufeff/, '');
  const source = sourceIn(listing, blobs, file);
  return 'text' in source ? source.text : undefined;
}
