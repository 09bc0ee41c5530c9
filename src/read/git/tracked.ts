/** Finds how git knows files, so that a change can be taken back in the way that works. */
import { readIndex, type GitIndex } from './index-file.ts';
import { compareWithDisk } from './on-disk.ts';
import type { Environment } from './program.ts';
import { openRepository, type Repository } from './repository.ts';

/**
 * How git knows a file: `none` where there is no git or no repository around it, `untracked` where the file is
 * not in it, `changed` where the file differs from what is staged or committed, or may do so, else `same`.
 */
type Tracking = 'none' | 'untracked' | 'changed' | 'same';

/** How git knows files of a studio, by their paths from the studio's root. Never throws. */
export function trackingOf(
  studioDir: string,
  files: readonly string[],
  environment: Environment,
): readonly Tracking[] {
  const repository = openRepository(studioDir, environment);
  const index = 'refused' in repository ? undefined : readIndex(repository);
  if ('refused' in repository || !index) return files.map(() => 'none');
  return files.map((file) => trackingIn(repository, index, file));
}

function trackingIn(repository: Repository, index: GitIndex, file: string): Tracking {
  const entry = index.entries.get(repository.prefix + file);
  if (!entry) return 'untracked';
  const blobs = new Map([[file, entry.id]]);
  const { same } = compareWithDisk(repository, { blobs, index });
  return same.has(file) && !entry.isUnmerged ? 'same' : 'changed';
}
