/** Puts the files of a studio into a temporary folder for as long as a test needs them. */
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';

/** Path from the studio's root, with forward slashes → content. */
export type StudioFiles = Readonly<Record<string, string | Uint8Array>>;

/** A studio on disk; `remove` takes all of it away again. */
export interface StudioFolder {
  readonly folder: string;
  readonly remove: () => void;
}

/**
 * Writes files into a new temporary folder, whose path has no links in it. The caller removes it;
 * `withStudio` does so by itself.
 */
export function writeStudio(files: StudioFiles): StudioFolder {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'saggar-test-')));
  for (const [path, content] of Object.entries(files)) {
    const target = join(folder, ...path.split('/'));
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, content);
  }
  return {
    folder,
    remove: () => {
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Gives what `use` makes of the studio on disk, and removes the folder whatever happens. */
export async function withStudio<T>(
  files: StudioFiles,
  use: (folder: string) => T | Promise<T>,
): Promise<T> {
  const { folder, remove } = writeStudio(files);
  try {
    return await use(folder);
  } finally {
    remove();
  }
}
