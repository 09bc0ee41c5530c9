/** Paths in a studio, with every link followed. */
import { lstatSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, join, sep } from 'node:path';

/** Follows links as far as there is something; undefined where a link leads nowhere. */
export function realOf(path: string): string | undefined {
  if (statSync(path, { throwIfNoEntry: false })) return realpathSync(path);
  if (lstatSync(path, { throwIfNoEntry: false })) return undefined;
  const folder = realOf(dirname(path));
  return folder === undefined ? undefined : join(folder, basename(path));
}

/** Whether a path lies in a folder, by its name alone. */
export function isInside(folder: string, path: string): boolean {
  return path.startsWith(folder.endsWith(sep) ? folder : folder + sep);
}

/** The program's own hidden files beside a file that it changes. */
export interface Hidden {
  /** The new text. */
  readonly temp: string;
  /** The old one, while others may still fail. */
  readonly backup: string;
}

/** The hidden files of one of the files that a process changes at once. */
export function hiddenBeside(target: string, pid: number, index: number): Hidden {
  const hidden = join(dirname(target), `.saggar-${pid}-${index}`);
  return { temp: `${hidden}.new`, backup: `${hidden}.old` };
}

/** Whether a name is of such a file, be it another process's. */
export function isHidden(name: string): boolean {
  return /^\.saggar-\d+-\d+\.(?:new|old)$/.test(name);
}
