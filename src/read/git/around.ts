/** Finds the repository that a folder lies in from what is on the disk: git would take others too. */
import { lstatSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { attempt } from '../../attempt.ts';

/** A folder's place in its repository. */
interface InRepository {
  /** The root of the working tree, links followed. */
  readonly root: string;
  /** The path from there with forward slashes and one at the end; empty for the root itself. */
  readonly prefix: string;
  /** Where git keeps what it knows, links followed; undefined where `.git` leads to no such place. */
  readonly gitDir: string | undefined;
}

/** The repository around a folder, links followed; undefined where there is none. Never throws. */
export function repositoryAround(folder: string): InRepository | undefined {
  try {
    const real = realpathSync(folder);
    const root = rootAbove(real);
    if (root === undefined) return undefined;
    const path = relative(root, real).split(sep).join('/');
    return { root, prefix: path === '' ? '' : `${path}/`, gitDir: gitDirOf(root) };
  } catch {
    return undefined;
  }
}

/** Whether a folder by itself looks like a repository without a working tree. Never throws. */
export function looksBare(folder: string): boolean {
  return ['HEAD', 'objects', 'refs'].every((name) => isThere(join(folder, name)));
}

/** Whether a path is a folder or in it; both without links. */
export function isInFolder(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return !isAbsolute(way) && way.split(sep)[0] !== '..';
}

// A folder in a repository of its own; a file in a worktree beside another one, and in a submodule.
function rootAbove(folder: string): string | undefined {
  const there = join(folder, '.git');
  if (isThere(there) && (!isFolder(there) || isThere(join(there, 'HEAD')))) return folder;
  const above = dirname(folder);
  return above === folder ? undefined : rootAbove(above);
}

/** No branch can bring a `.git`, so what it leads to must not be what a branch could bring. */
function gitDirOf(root: string): string | undefined {
  const there = join(root, '.git');
  const named = isFolder(there) ? there : namedBy(root, there);
  if (named === undefined || !isFolder(named)) return undefined;
  const real = realpathSync(named);
  const isContent =
    isInFolder(root, real) && !relative(root, real).toLowerCase().split(sep).includes('.git');
  return isContent ? undefined : real;
}

/** What all working trees of a repository share; the folder itself, where there is one alone. Never throws. */
export function sharedDirOf(gitDir: string): string {
  const path = attempt(() => textIn(join(gitDir, 'commondir'))?.trimEnd());
  if (path === undefined) return gitDir;
  return attempt(() => realpathSync(resolve(gitDir, path))) ?? gitDir;
}

const LONGEST_PATH = 4096;

function namedBy(root: string, file: string): string | undefined {
  const path = /^gitdir: (.+?)[\r\n]*$/s.exec(textIn(file) ?? '')?.[1];
  return path === undefined ? undefined : resolve(root, path);
}

/** What is in a file that names a path; undefined where that is not what it can be. */
function textIn(file: string): string | undefined {
  const stats = statSync(file, { throwIfNoEntry: false });
  if (!stats?.isFile() || stats.size > LONGEST_PATH) return undefined;
  return readFileSync(file, 'utf8');
}

/** The branch that is checked out around a folder: empty for a commit that is on none, undefined without a repository. */
export function branchAround(folder: string): string | undefined {
  const gitDir = repositoryAround(folder)?.gitDir;
  if (gitDir === undefined) return undefined;
  const head = attempt(() => textIn(join(gitDir, 'HEAD'))) ?? '';
  return /^ref: refs\/heads\/([^\r\n]+)/.exec(head)?.[1] ?? '';
}

function isFolder(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;
}

function isThere(path: string): boolean {
  return attempt(() => lstatSync(path, { throwIfNoEntry: false })) !== undefined;
}
