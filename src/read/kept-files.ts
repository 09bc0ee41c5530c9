/** Files whose content is kept between runs, and the list of them. */
import { Buffer } from 'node:buffer';
import type { Stamp } from './disk.ts';
import type { FileDays, Outline } from './outline.ts';
import type { Sought } from './packed.ts';
import type { RawFile } from './raw.ts';

/** A file whose content may be kept. */
export interface Keepable extends RawFile {
  /** The state in which it was read. */
  readonly stamp: Stamp;
  readonly days: FileDays;
  readonly outline: () => Outline;
  /** A fingerprint of its text. */
  readonly content: string;
}

/** A file that is as it was when it was found clean. Its content is made when it is asked for. */
export interface Recalled extends Keepable {
  readonly ids: () => readonly string[];
  readonly idsWith: (sought: Sought) => readonly string[];
}

/** Of no file. */
export const NO_STAMP: Stamp = { size: -1, modified: 0, changed: 0, inode: 0 };

/** What is kept of all boxes: where each file's records are, and what else was noted. */
export interface About {
  readonly files: KeptFiles;
  readonly more: ReadonlyMap<string, unknown>;
}

/** A file of which the content is in a box. */
export interface KeptFile extends Omit<Keepable, 'root' | 'outline'> {
  readonly box: string;
}

/** The files in columns: their texts one after the other, and their stamps. */
interface KeptFiles {
  /** In UTF-8. */
  readonly texts: Uint8Array;
  readonly stamps: Float64Array;
}

/** None. */
export const NO_FILES: KeptFiles = { texts: new Uint8Array(), stamps: new Float64Array() };
// No path holds it, and nothing else that is kept of a file does.
const BETWEEN = '\0';
const TEXTS = 7;
const NUMBERS = 4;

/** Files as they are kept. */
export function keptFiles(files: readonly KeptFile[]): KeptFiles {
  const texts: string[] = [];
  const stamps: number[] = [];
  for (const { file, kind, box, content, odd, days: [from, until] = ['', ''], stamp } of files) {
    texts.push(file, kind, box, content, odd ? 'odd' : '', from, until);
    stamps.push(stamp.size, stamp.modified, stamp.changed, stamp.inode);
  }
  return { texts: Buffer.from(texts.join(BETWEEN)), stamps: new Float64Array(stamps) };
}

/** Files as they were, by their paths. */
export function filesKept({ texts, stamps }: KeptFiles): Map<string, KeptFile> {
  const all = Buffer.from(texts).toString().split(BETWEEN);
  const files = new Map<string, KeptFile>();
  for (let at = 0; at < stamps.length / NUMBERS; at++) {
    const text = at * TEXTS;
    const [file = '', kind, box = '', content = '', odd, from = '', until = ''] = all.slice(
      text,
      text + TEXTS,
    );
    const [size = 0, modified = 0, changed = 0, inode = 0] = stamps.slice(
      at * NUMBERS,
      at * NUMBERS + NUMBERS,
    );
    files.set(file, {
      file,
      kind: kind as KeptFile['kind'],
      box,
      content,
      odd: odd === 'odd',
      days: from === '' ? undefined : [from, until],
      stamp: { size, modified, changed, inode },
    });
  }
  return files;
}
