/** What an earlier version of the program left in a studio. */
import { lstatSync } from 'node:fs';

/** The folder in which things were remembered once; nothing in it is read any more. */
const FOLDER = '.saggar';

/** The path of the leftover in a studio, where there is one. */
export function leftoverIn(studioDir: string): string | undefined {
  const path = `${studioDir}/${FOLDER}`;
  return lstatSync(path, { throwIfNoEntry: false }) === undefined ? undefined : path;
}
