/** Tells which files of a studio are on the disk or in git alone because git was told so. */
import { lstatSync } from 'node:fs';
import { join } from 'node:path';
import { attempt } from '../../attempt.ts';
import { listFiles } from '../find.ts';
import { kindOf, kindOfPath } from '../kinds.ts';
import { repositoryAround } from './around.ts';
import { readIndex } from './index-file.ts';
import type { Commit, NoAnswer, Repository } from './repository.ts';
import { listCommit } from './tree.ts';
import { filesThere, stagedIn, type Contents } from './uncommitted.ts';

/** How a checkout differs from a commit with nobody having changed it; paths are from the studio's root. */
export interface Checkout {
  /** Files that are committed and that a sparse checkout does not have on the disk. */
  readonly leftOut: readonly string[];
  /** Files with records that are on the disk, and that git is told to ignore. */
  readonly ignored: readonly string[];
}

/** Compares what is on the disk with what git has or would take in. Writes nothing. */
export function checkoutOf(repository: Repository, head: Commit): Checkout | NoAnswer {
  const listing = listCommit(repository, head);
  if ('refused' in listing) return listing;
  const { root = '', prefix } = repository;
  const index = readIndex(repository);
  const committed: Contents = new Map(
    [...listing.blobs].map(([file, id]) => [file, { id, mode: 0 }]),
  );
  const staged = index ? stagedIn(index, prefix, committed) : committed;
  const leftOut = [...staged].filter(
    ([file, { isSkipped }]) => isSkipped && !isOnDisk(`${root}/${prefix}${file}`),
  );
  const there = filesThere(repository);
  const { files } = listFiles(`${root}/${prefix}`);
  const isIgnored = (file: string): boolean => !staged.has(file) && there?.has(file) === false;
  return {
    leftOut: leftOut.map(([file]) => file).sort(),
    ignored: files.flatMap(({ file, linked }) => (!linked && isIgnored(file) ? [file] : [])),
  };
}

/** Where git says which files a checkout is to have on the disk. */
const SPARSE = 'info/sparse-checkout';

/**
 * The files of a studio, or whole folders, that a sparse checkout does not have on the disk; paths are from
 * the studio's root. Git is not asked. Never throws.
 */
export function leftOutOfDisk(studioDir: string): readonly string[] {
  const { root = '', prefix = '', gitDir } = repositoryAround(studioDir) ?? {};
  if (gitDir === undefined || !isOnDisk(join(gitDir, SPARSE))) return [];
  const index = readIndex({ gitDir, idLength: 20 }) ?? readIndex({ gitDir, idLength: 32 });
  const paths = [...(index?.entries ?? [])].flatMap(([path, { isSkipped }]) => {
    const isOfStudio = path.startsWith(prefix) && mayHaveRecords(path.slice(prefix.length));
    return isSkipped && isOfStudio && !isOnDisk(join(root, path))
      ? [path.slice(prefix.length)]
      : [];
  });
  return paths.sort();
}

/** The first of some new files that a sparse checkout leaves out, so that git has another one of that name. */
export function hiddenAmong(studioDir: string, files: readonly string[]): string | undefined {
  if (files.length === 0) return undefined;
  const leftOut = leftOutOfDisk(studioDir);
  return files.find((file) =>
    leftOut.some((path) => file === path || (path.endsWith('/') && file.startsWith(path))),
  );
}

/** A file with records, or a folder for them, which ends with a slash. */
function mayHaveRecords(path: string): boolean {
  return (path.endsWith('/') ? kindOfPath(path) : kindOf(path)) !== undefined;
}

function isOnDisk(path: string): boolean {
  return attempt(() => lstatSync(path)) !== undefined;
}
