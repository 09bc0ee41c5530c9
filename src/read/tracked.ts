/** Asks git how it knows a file, so that a change can be taken back in the way that works. */
import { spawnSync } from 'node:child_process';
import { repositoryAround } from './repository.ts';

/**
 * How git knows a file: `none` where there is no git or no repository around it, `untracked` where the file is
 * not in it, `changed` where the file differs from what is staged or committed, else `same`.
 */
export type Tracking = 'none' | 'untracked' | 'changed' | 'same';

/** How git knows a file of a studio, by its path from the studio's root. Never throws. */
export function trackingOf(studioDir: string, file: string): Tracking {
  // Git itself takes its time to find that there is nothing.
  if (!repositoryAround(studioDir)) return 'none';
  // A file is listed once because it is tracked, and once more where it has changed.
  const list = git(studioDir, ['ls-files', '-z', '--cached', '--modified', '--', file]);
  if (list === undefined) return 'none';
  const times = list.split('\0').length - 1;
  if (times === 0) return 'untracked';
  return times === 1 ? 'same' : 'changed';
}

function git(folder: string, words: readonly string[]): string | undefined {
  const options = ['-C', folder, '--literal-pathspecs', '-c', 'core.fsmonitor=false'];
  const run = spawnSync('git', [...options, ...words], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  return run.status === 0 ? run.stdout : undefined;
}
