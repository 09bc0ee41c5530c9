/** Opens the repository of a studio, which is named to git in every call, and finds commits in it. */
import { realpathSync } from 'node:fs';
import { dirname } from 'node:path';
import { attempt } from '../../attempt.ts';
import { looksBare, repositoryAround } from './around.ts';
import { duringPush, gitEnvironment, gitProgram, type Environment } from './program.ts';
import { AT_ONCE, askGit, runGit, type Failed, type GitPlace } from './run.ts';

/** A repository. */
export interface Repository extends GitPlace {
  /** Where git keeps what it knows. */
  readonly gitDir: string;
  /** The root of the working tree; undefined where there is none. */
  readonly root: string | undefined;
  /** Path of the studio from the root of the repository's tree: empty, or with a slash at its end. */
  readonly prefix: string;
  /** Whether it has no files checked out beside it. */
  readonly isBare: boolean;
  /** The bytes of an id. */
  readonly idLength: 20 | 32;
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

/**
 * The repository in whose working tree a folder lies, or why there is none. A folder that has the files
 * of a repository beside those of a studio is not taken for one, as git itself would.
 */
export function openRepository(folder: string, environment: Environment): Repository | NoAnswer {
  const around = repositoryAround(folder);
  if (!around) return { refused: noRepository(folder) };
  const { root, prefix, gitDir } = around;
  if (gitDir === undefined)
    return { refused: `${root}/.git does not lead to a repository, so git is not asked` };
  const where = ['-C', root, `--work-tree=${root}`];
  const opened = openAt({ folder, root, gitDir, where, environment });
  return 'refused' in opened ? opened : { ...opened, root, prefix, isBare: false };
}

/**
 * The repository without a working tree that a folder itself is; undefined where it looks like none. One
 * that lies in a working tree may have come with its files, so it is refused.
 */
export function openBareRepository(
  folder: string,
  environment: Environment,
): Repository | NoAnswer | undefined {
  if (!looksBare(folder)) return undefined;
  const gitDir = realpathSync(folder);
  const around = repositoryAround(gitDir);
  if (around?.gitDir === gitDir) return undefined;
  if (around)
    return {
      refused: `${folder} lies among the files of the repository ${around.root}, so it is not taken for one of its own`,
    };
  const where = ['-c', 'safe.bareRepository=all', '-C', gitDir];
  const opened = openAt({ folder, root: gitDir, gitDir, where, environment });
  return 'refused' in opened ? opened : { ...opened, root: undefined, prefix: '', isBare: true };
}

interface Found {
  readonly folder: string;
  /** Where git is to look, and nowhere above. */
  readonly root: string;
  readonly gitDir: string;
  readonly where: readonly string[];
  readonly environment: Environment;
}

type Opened = Omit<Repository, 'root' | 'prefix' | 'isBare'>;

/** Git looks once by itself, for only then does it refuse what belongs to somebody else. */
function openAt({ folder, root, gitDir, where, environment }: Found): Opened | NoAnswer {
  const program = gitProgram(environment, folder);
  if (program === undefined) return { refused: noAnswer(folder, 'git is not there') };
  const plain = gitEnvironment(environment);
  const looking = { ...plain, GIT_CEILING_DIRECTORIES: dirname(root) };
  const words = ['rev-parse', '--show-object-format', '--absolute-git-dir'];
  const printed = runGit({ program, environment: looking, where }, words, { within: AT_ONCE });
  if (!('text' in printed)) return { refused: whyNot(folder, printed) };
  const [format, ...path] = printed.text.trimEnd().split('\n');
  if (attempt(() => realpathSync(path.join('\n'))) !== gitDir)
    return { refused: noRepository(folder) };
  return {
    program,
    environment: { ...plain, ...duringPush(environment, gitDir) },
    where: [...where, `--git-dir=${gitDir}`],
    gitDir,
    idLength: format === 'sha256' ? 32 : 20,
  };
}

function whyNot(folder: string, { failed }: Failed): string {
  return failed.includes('not a git repository') ? noRepository(folder) : noAnswer(folder, failed);
}

/** A sentence on what keeps git from answering for a folder. */
export function noAnswer(folder: string, reason: string): string {
  return `git does not answer for ${folder}: ${reason}`;
}

function noRepository(folder: string): string {
  return `${folder} is not in a git repository, so there is no other state of the book to look at`;
}

const OBJECT_ID = /^(?:[0-9a-f]{40}|[0-9a-f]{64})$/;

/** The commit of a revision: a branch, a tag, an id, `HEAD~3`. What looks like an option is none. */
export function commitOf(repository: Repository, revision: string): Commit | NoAnswer {
  const id = idOf(repository, revision, 'commit');
  if (typeof id === 'string') return { name: branchName(revision), id };
  return id ?? { refused: unknownRevision(repository, revision) };
}

/** A branch that is named in full, as where a tag may have its name too, is called by its own name. */
function branchName(revision: string): string {
  return revision.replace(/^refs\/(?:[^/]+\/)??heads\//, '');
}

/** The same, or a tree without a commit: `git write-tree` makes one of what is about to be committed. */
export function snapshotOf(repository: Repository, revision: string): Commit | NoAnswer {
  const commit = commitOf(repository, revision);
  const id = 'refused' in commit ? idOf(repository, revision, 'tree') : undefined;
  return typeof id === 'string' ? { name: revision, id } : commit;
}

function idOf(
  repository: Repository,
  revision: string,
  type: 'commit' | 'tree',
): string | NoAnswer | undefined {
  if (revision === '' || revision.includes('\n') || revision.includes('\0')) return undefined;
  const words = ['rev-parse', '--verify', '--quiet', '--end-of-options', `${revision}^{${type}}`];
  return idFrom(repository, words);
}

/** The id that git prints; undefined where it finds none. */
function idFrom(repository: Repository, words: readonly string[]): string | NoAnswer | undefined {
  const printed = runGit(repository, words);
  if ('text' in printed) {
    const id = printed.text.trim();
    return OBJECT_ID.test(id) ? id : undefined;
  }
  return printed.isLate ? { refused: noAnswer(repository.gitDir, printed.failed) } : undefined;
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
  const id = idFrom(repository, ['merge-base', base.id, head.id]);
  if (typeof id === 'string')
    return { name: id === base.id ? base.name : `the start of the branch from ${base.name}`, id };
  if (id) return id;
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

const OF_PARTIAL = '^(remote\\..*\\.promisor|extensions\\.partialclone)$';

/** Why something that was committed is not to be had: git would fetch it, which it is kept from here. */
export function partialClone(repository: Repository): NoAnswer | undefined {
  if (!askGit(repository, ['config', '--get-regexp', OF_PARTIAL])) return undefined;
  return {
    refused:
      'this is a partial clone, which does not have all that was committed; fetch the rest first: git fetch --refetch --no-filter',
  };
}
