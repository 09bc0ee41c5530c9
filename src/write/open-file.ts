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

/** Writes all of it, or throws: of much a full disk takes a part, and only refuses the next. */
export function writeAll(handle: number, data: string | Uint8Array): void {
  let rest = typeof data === 'string' ? Buffer.from(data) : data;
  while (rest.length > 0) rest = rest.subarray(writeSync(handle, rest));
}
