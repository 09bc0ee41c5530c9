/** Real git in folders of tests. */
import { execFileSync } from 'node:child_process';

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
