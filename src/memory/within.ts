/** Tells whether a folder of the person's own lies in a studio, where a branch could bring what is in it. */
import { existsSync, realpathSync } from 'node:fs';
import { dirname, sep } from 'node:path';

/**
 * Whether a path is a folder or leads into it, as far as it is there: a link in it may do so.
 * @param folder with every link followed
 */
export function leadsInto(path: string, folder: string): boolean {
  const real = nearestReal(path);
  return real === folder || real.startsWith(folder.endsWith(sep) ? folder : folder + sep);
}

/** The part of a path that is there, with every link followed. */
export function nearestReal(path: string): string {
  if (existsSync(path)) return realpathSync(path);
  const above = dirname(path);
  return above === path ? path : nearestReal(above);
}
