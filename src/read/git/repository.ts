/** Finds the repository of a studio, and the commits that revisions of it stand for. */
import { askGit, runGit, type Environment, type GitPlace } from './run.ts';

/** A studio's repository. */
export interface Repository extends GitPlace {
  /** Path of the studio from the root of the repository's tree: empty, or with a slash at its end. */
  readonly prefix: string;
  /** Whether it has no files checked out beside it. */
  readonly isBare: boolean;
}

/** A revision as it was asked for, and the full id of its commit. */
export interface Commit {
  readonly name: string;
  readonly id: string;
}

/** Why git can't answer: a sentence for people. */
export interface NoAnswer {
  readonly refused: string;
  /** Lines below the sentence. */
  readonly more?: readonly string[];
}

/** The repository that a folder is in, or why there is none. */
export function openRepository(
  folder: string,
  environment: Environment | undefined,
): Repository | NoAnswer {
  const place = { folder, environment };
  const found = runGit(place, ['rev-parse', '--is-bare-repository', '--show-prefix']);
  if (!('text' in found)) return { refused: noRepository(folder, found.failed) };
  const [bare, prefix = ''] = found.text.split('\n');
  return { ...place, prefix, isBare: bare === 'true' };
}

function noRepository(folder: string, reason: string): string {
  if (!reason.includes('not a git repository'))
    return `git does not answer for ${folder}: ${reason || 'no reason given'}`;
  return `${folder} is in no git repository, so there is no other state of the book to look at`;
}

const OBJECT_ID = /^(?:[0-9a-f]{40}|[0-9a-f]{64})$/;

/** The commit of a revision: a branch, a tag, an id, `HEAD~3`. What looks like an option is none. */
export function commitOf(repository: Repository, revision: string): Commit | NoAnswer {
  const id = idOf(repository, revision, 'commit');
  return id === undefined
    ? { refused: unknownRevision(repository, revision) }
    : { name: revision, id };
}

/** The same, or a tree without a commit: `git write-tree` makes one of what is about to be committed. */
export function snapshotOf(repository: Repository, revision: string): Commit | NoAnswer {
  const commit = commitOf(repository, revision);
  const id = 'refused' in commit ? idOf(repository, revision, 'tree') : undefined;
  return id === undefined ? commit : { name: revision, id };
}

function idOf(
  repository: Repository,
  revision: string,
  type: 'commit' | 'tree',
): string | undefined {
  if (revision === '' || revision.includes('\n') || revision.includes('\0')) return undefined;
  const words = ['rev-parse', '--verify', '--quiet', '--end-of-options', `${revision}^{${type}}`];
  const id = askGit(repository, words)?.trim();
  return id !== undefined && OBJECT_ID.test(id) ? id : undefined;
}

function unknownRevision(repository: Repository, revision: string): string {
  if (askGit(repository, ['rev-parse', '--verify', '--quiet', 'HEAD^{commit}']) === undefined)
    return 'nothing is committed on this branch yet, so there is nothing to compare with';
  const remote = isShallow(repository)
    ? 'this is a shallow clone, so it may be further back: git fetch --unshallow'
    : 'see git branch --all and git tag; what is only on another machine has to be fetched first';
  return `git knows no commit "${revision}" here; ${remote}`;
}

/** The commit at which two histories parted; its name says so. */
export function startOf(repository: Repository, base: Commit, head: Commit): Commit | NoAnswer {
  const id = askGit(repository, ['merge-base', base.id, head.id])?.trim();
  if (id !== undefined && OBJECT_ID.test(id))
    return { name: id === base.id ? base.name : `the start of the branch from ${base.name}`, id };
  if (isShallow(repository))
    return {
      refused: `this is a shallow clone that does not reach back to where ${head.name} left ${base.name}; fetch the rest first: git fetch --unshallow`,
    };
  return {
    refused: `${base.name} and ${head.name} have no commit in common; to compare them as they are, write ${base.name}..${head.name}`,
  };
}

function isShallow(repository: Repository): boolean {
  return askGit(repository, ['rev-parse', '--is-shallow-repository'])?.trim() === 'true';
}
