/** Names of files and folders that are not valid UTF-8: found, and shown with their bytes. */
import { isUtf8, type Buffer } from 'node:buffer';
import { readdirSync } from 'node:fs';
import { attempt } from '../attempt.ts';

/** What the system gives for bytes that are no text; it may be in a name by itself, too. */
const REPLACEMENT = '\ufffd';

/** Whether a name that the system gave may not be the one on the disk. */
export function isDoubtful(name: string): boolean {
  return name.includes(REPLACEMENT);
}

/** A name that is not valid UTF-8. */
interface OddName {
  /** As the system gives it, which names nothing. */
  readonly given: string;
  /** With its bytes shown. */
  readonly shown: string;
}

/** The names in a folder that are not valid UTF-8; none where it can't be read any more. */
export function oddNames(folder: string): readonly OddName[] {
  const names = attempt(() => readdirSync(folder, { encoding: 'buffer' })) ?? [];
  return names
    .filter((name) => !isUtf8(name))
    .map((name) => ({ given: name.toString('utf8'), shown: shownBytes(name) }));
}

/** The name with `\xE9` for each byte that belongs to no character, and two backslashes for one. */
function shownBytes(name: Buffer): string {
  let shown = '';
  for (let at = 0; at < name.length;) {
    const length = [1, 2, 3, 4].find((count) => isUtf8(name.subarray(at, at + count)));
    shown += length
      ? name.toString('utf8', at, at + length).replace('\\', '\\\\')
      : `\\x${(name[at] ?? 0).toString(16).toUpperCase().padStart(2, '0')}`;
    at += length ?? 1;
  }
  return shown;
}

/** What is said of such a file, folder or link. */
export function oddNameWords(name: string): { message: string; hint: string } {
  const ending = /\.ya?ml$/i.exec(name)?.[0] ?? '';
  return {
    message: 'its name is not valid UTF-8 (the bytes that are not are shown as \\x and two digits)',
    hint: `give it another name, in its folder: mv -- $'${name.replaceAll("'", "\\'")}' NEW-NAME${ending}`,
  };
}
