/** Reads lists that other programs wrote, in the encodings that they use. */
import { isUtf8, type Buffer } from 'node:buffer';
import { readFileSync, readdirSync, statSync } from 'node:fs';
import { attempt } from '../attempt.ts';
import type { Finding } from '../problem.ts';
import { isYamlName, LISTS_FOLDER } from './kinds.ts';
import { unreadable, whyUnreadable } from './disk.ts';

/** Lists larger than this are not read; in bytes, 50 MiB. */
const LARGEST_LIST = 50 * 1024 * 1024;

/** The bytes of a list, or why there are none. */
export function listBytes(path: string, name: string): Buffer | Finding {
  try {
    const stats = statSync(path);
    if (!stats.isFile())
      return unreadable(name, { message: 'it is not an ordinary file', hint: 'name a file' });
    if (stats.size > LARGEST_LIST)
      return unreadable(name, {
        message: 'the list is larger than 50 MiB',
        hint: 'take it in year by year',
      });
    return readFileSync(path);
  } catch (error) {
    return unreadable(name, whyUnreadable(error));
  }
}

/** The encoding that the bytes are in, as far as they show it: a text that is not UTF-8 is Windows-1252. */
export function encodingOf(bytes: Buffer): 'utf-8' | 'utf-16le' | 'windows-1252' {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  return isUtf8(bytes) ? 'utf-8' : 'windows-1252';
}

/** The text of a list without its byte order mark; undefined where the bytes are not in that encoding. */
export function listText(
  bytes: Buffer,
  encoding: ReturnType<typeof encodingOf>,
): string | undefined {
  if (encoding === 'windows-1252') return bytes.toString('latin1').replace(FROM_128, inWindows);
  const decoder = new TextDecoder(encoding, { fatal: true });
  return attempt(() => decoder.decode(bytes));
}

/** What Windows-1252 has where Latin-1 has controls, from 128 on (Unicode's CP1252.TXT); Node's own decoder leaves those. */
const WINDOWS = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';
const FROM_128 = /[\u0080-\u009f]/g;

function inWindows(sign: string): string {
  return WINDOWS.charAt(sign.charCodeAt(0) - 128);
}

/** The names of the maps that a studio has. */
export function listNames(studioDir: string): readonly string[] {
  const names = attempt(() => readdirSync(`${studioDir}/${LISTS_FOLDER}`)) ?? [];
  return names
    .filter(isYamlName)
    .map((name) => name.replace(/\.ya?ml$/i, ''))
    .sort();
}
