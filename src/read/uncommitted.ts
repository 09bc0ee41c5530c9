/** Asks git which files of a studio differ from what was last committed. */
import { spawnSync } from 'node:child_process';

/** A repository that doesn't answer in this time, in milliseconds, is passed over. */
const PATIENCE = 5000;

/**
 * Paths of the files in the studio that git has not committed as they are now: new, changed, moved or
 * deleted ones, but none that it is told to ignore. Paths are from the repository's root, in the
 * order of git. Undefined without git or outside a repository. Never throws, and changes nothing.
 */
export function uncommittedFiles(studioDir: string): readonly string[] | undefined {
  const options = ['-C', studioDir, '--no-optional-locks', '-c', 'core.fsmonitor=false'];
  const status = ['status', '--porcelain=v1', '-z', '--untracked-files=all', '--no-renames'];
  const run = spawnSync('git', [...options, ...status, '--', '.'], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
    timeout: PATIENCE,
    maxBuffer: 64 * 1024 * 1024,
  });
  if (run.status !== 0) return undefined;
  // Each entry is two letters of state, a blank and the path.
  return run.stdout
    .split('\0')
    .filter((entry) => entry !== '')
    .map((entry) => entry.slice(3));
}
