/** Writes to a file that somebody has opened for the program, as a shell does for `> FILE`. */
import { fstatSync, writeSync } from 'node:fs';
import { isatty } from 'node:tty';

/** Whether it is a file or a device without a person at it, which take or refuse a text at once. */
export function isOpenFile(handle: number): boolean {
  try {
    const stat = fstatSync(handle);
    return stat.isFile() || (stat.isCharacterDevice() && !isatty(handle));
  } catch {
    return false;
  }
}

/** Writes all of a text, or throws: of a large one a full disk takes a part, and only refuses the next. */
export function writeAll(handle: number, text: string): void {
  let rest = Buffer.from(text);
  while (rest.length > 0) rest = rest.subarray(writeSync(handle, rest));
}
