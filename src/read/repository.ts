/** Finds where in a repository of git a folder lies, without asking git. */
import { existsSync, realpathSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';

/** A folder's place in its repository. */
export interface InRepository {
  /** The root of the working tree. */
  readonly root: string;
  /** The path from there with forward slashes and one at the end; empty for the root itself. */
  readonly prefix: string;
}

/** The repository around a folder, links followed; undefined where there is none. Never throws. */
export function repositoryAround(folder: string): InRepository | undefined {
  try {
    const real = realpathSync(folder);
    const root = rootAbove(real);
    if (root === undefined) return undefined;
    const path = relative(root, real).split(sep).join('/');
    return { root, prefix: path === '' ? '' : `${path}/` };
  } catch {
    return undefined;
  }
}

// A folder in a repository of its own, a file in a worktree beside another one.
function rootAbove(folder: string): string | undefined {
  if (existsSync(join(folder, '.git'))) return folder;
  const above = dirname(folder);
  return above === folder ? undefined : rootAbove(above);
}
