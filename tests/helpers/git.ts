/** Real git in folders of tests. */
import { execFileSync, spawnSync } from 'node:child_process';

/** Runs git in a folder and returns what it prints. */
export function git(folder: string, ...words: string[]): string {
  const who = ['-c', 'user.name=Test', '-c', 'user.email=test@example.org'];
  return execFileSync('git', [...who, ...words], { cwd: folder, encoding: 'utf8' });
}

/** The folder, made a repository with everything in it committed. */
export function inGit(folder: string): string {
  git(folder, 'init', '-q');
  git(folder, 'add', '-A');
  git(folder, 'commit', '-qm', 'Begin');
  return folder;
}

/** What is done on a branch, in the folder of the repository. */
export type Work = (folder: string) => Promise<unknown>;

/**
 * Lets two branches go apart from what is committed, `main` or whatever it is called and `other`, and
 * merges the other one. True where git needs no help with it.
 */
export async function mergeBranches(
  folder: string,
  { ours, theirs, other = 'other' }: { readonly ours: Work; readonly theirs: Work; other?: string },
): Promise<boolean> {
  git(folder, 'checkout', '-qb', other);
  await theirs(folder);
  commitAll(folder, 'Theirs');
  git(folder, 'checkout', '-q', '-');
  await ours(folder);
  commitAll(folder, 'Ours');
  return mergesCleanly(folder, other);
}

/** Commits all there is. */
export function commitAll(folder: string, message: string): void {
  git(folder, 'add', '-A');
  git(folder, 'commit', '-qm', message);
}

/** Merges a branch; true where nothing is left to settle. */
export function mergesCleanly(folder: string, branch: string): boolean {
  const who = ['-c', 'user.name=Test', '-c', 'user.email=test@example.org'];
  const run = spawnSync('git', [...who, 'merge', '-q', '--no-edit', branch], {
    cwd: folder,
    encoding: 'utf8',
  });
  if (run.status === 0) return true;
  if (run.stdout.includes('CONFLICT')) return false;
  throw new Error(run.stderr);
}
