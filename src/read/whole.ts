/** A file's whole text for those who change it: nothing is left out, and nothing is put right. */
import { isUtf8 } from 'node:buffer';
import { readFileSync } from 'node:fs';

/**
 * The text with its byte order mark, if it has one, so that it can be compared with the file's bytes.
 * Undefined where there is no file of that path (from the studio's root), or no text in it.
 */
export function wholeText(studioDir: string, file: string): string | undefined {
  try {
    const bytes = readFileSync(`${studioDir}/${file}`);
    return isUtf8(bytes) ? bytes.toString('utf8') : undefined;
  } catch {
    return undefined;
  }
}
