/** Reads the contents of many files from git's objects with one process. */
import { Buffer } from 'node:buffer';
import { posix } from 'node:path';
import { LINE_FEED } from '../yaml/codes.ts';
import { LARGEST_FILE, tooLarge } from '../disk.ts';
import {
  leadsUpwards,
  missingSheet,
  outsideSheet,
  unreadSheet,
  type SheetText,
} from '../tax-sheet.ts';
import { decodeText } from '../text.ts';
import {
  noAnswer,
  partialClone,
  type Commit,
  type NoAnswer,
  type Repository,
} from './repository.ts';
import { pipeGit } from './run.ts';
import { blobAt } from './tree.ts';

/** A content, or the size of one that is too large to be read. */
export type Blob = Buffer | { readonly tooLarge: number };

/**
 * The contents of these objects by id, or why git can't give them. Those that are missing are left out,
 * but in a partial clone, where git gives up at the first of them.
 */
export async function readBlobs(
  repository: Repository,
  ids: readonly string[],
): Promise<ReadonlyMap<string, Blob> | NoAnswer> {
  const wanted = [...new Set(ids)];
  const reader = newReader();
  if (wanted.length === 0) return reader.blobs;
  const words = ['cat-file', '--batch', '--buffer'];
  const input = wanted.map((id) => `${id}\n`).join('');
  const failed = await pipeGit(repository, { words, input }, reader.take);
  if (failed?.isLate) return { refused: noAnswer(repository.gitDir, failed.failed) };
  const isWhole = wanted.every((id) => reader.blobs.has(id));
  return (isWhole ? undefined : partialClone(repository)) ?? reader.blobs;
}

/** How far what git prints has been read. */
interface Reading {
  /** What has come and is not used yet, of a head line or of a content. */
  parts: Buffer[];
  /** The content that is being read. */
  open: { readonly id: string; readonly size: number; left: number } | undefined;
}

/** Each object is a line of id, type and size, then the content and a line feed. */
function newReader(): { blobs: Map<string, Blob>; take: (chunk: Buffer) => void } {
  const blobs = new Map<string, Blob>();
  const reading: Reading = { parts: [], open: undefined };
  const take = (chunk: Buffer): void => {
    let rest = chunk;
    while (rest.length > 0)
      rest = reading.open ? takeContent(reading, blobs, rest) : takeHead(reading, rest);
  };
  return { blobs, take };
}

function takeHead(reading: Reading, chunk: Buffer): Buffer {
  const end = chunk.indexOf(LINE_FEED);
  reading.parts.push(end < 0 ? chunk : chunk.subarray(0, end));
  if (end < 0) return chunk.subarray(chunk.length);
  const [id = '', type, size] = Buffer.concat(reading.parts).toString('latin1').split(' ');
  reading.parts = [];
  // A missing object has no content behind its line.
  if (size !== undefined && type !== 'missing')
    reading.open = { id, size: Number(size), left: Number(size) + 1 };
  return chunk.subarray(end + 1);
}

function takeContent(reading: Reading, blobs: Map<string, Blob>, chunk: Buffer): Buffer {
  const { open } = reading;
  if (!open) return chunk;
  const part = chunk.subarray(0, open.left);
  open.left -= part.length;
  if (open.size <= LARGEST_FILE) reading.parts.push(part);
  if (open.left === 0) {
    const isRead = open.size <= LARGEST_FILE;
    const content = isRead ? Buffer.concat(reading.parts).subarray(0, open.size) : undefined;
    blobs.set(open.id, content ?? { tooLarge: open.size });
    reading.parts = [];
    reading.open = undefined;
  }
  return chunk.subarray(part.length);
}

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
