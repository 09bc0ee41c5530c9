/** Files whose content is kept between runs, and the list of them. */
import { Buffer } from 'node:buffer';
import type { Stamp } from './disk.ts';
import type { FileDays, Outline } from './outline.ts';
import type { KnownFiles, Sought } from './packed.ts';
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

/** A file that was found clean, as it was then. What is in it is made when it is asked for. */
export interface Recalled extends Keepable {
  readonly known: Recalled;
  /** Where its content is. */
  readonly box: string;
  readonly ids: () => readonly string[];
  readonly idsWith: (sought: Sought) => readonly string[];
}

/** What the boxes hold of files. */
export interface Contents {
  readonly of: (box: string, kind: RawFile['kind']) => KnownFiles;
  readonly outlineOf: (file: string) => Outline;
  readonly idsOf: (file: string) => readonly string[];
}

/** Of no file. */
export const NO_STAMP: Stamp = { size: -1, modified: 0, changed: 0, inode: 0 };

/** What is kept of all boxes: where each file's records are, and what else was noted. */
export interface About {
  readonly files: KeptFiles;
  readonly more: ReadonlyMap<string, unknown>;
}

/** A file of which the content is in a box. */
export type KeptFile = Pick<
  Recalled,
  'file' | 'kind' | 'box' | 'content' | 'odd' | 'days' | 'stamp'
>;

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
export function filesKept({ texts, stamps }: KeptFiles, contents: Contents): Map<string, Recalled> {
  const all = Buffer.from(texts).toString().split(BETWEEN);
  const shared = sharedBy(contents);
  const files = new Map<string, Recalled>();
  for (let at = 0, text = 0; at < stamps.length; at += NUMBERS, text += TEXTS) {
    const [file, kind, box] = [
      all[text] ?? '',
      all[text + 1] as RawFile['kind'],
      all[text + 2] ?? '',
    ];
    const from = all[text + 5] ?? '';
    // Key by key, for there are thousands.
    files.set(file, {
      __proto__: shared,
      file,
      kind,
      box,
      content: all[text + 3] ?? '',
      odd: all[text + 4] !== '',
      days: from === '' ? undefined : [from, all[text + 6] ?? ''],
      stamp: {
        size: stamps[at] ?? 0,
        modified: stamps[at + 1] ?? 0,
        changed: stamps[at + 2] ?? 0,
        inode: stamps[at + 3] ?? 0,
      },
      outline: () => contents.outlineOf(file),
      ids: () => contents.idsOf(file),
      idsWith: (sought: Sought) => contents.of(box, kind).idsWith(file, sought),
    } as unknown as Recalled);
  }
  return files;
}

/** All files have one getter, in place of one each. */
function sharedBy({ of }: Contents): Pick<Recalled, 'root' | 'known'> & ThisType<Recalled> {
  return {
    get root() {
      return of(this.box, this.kind).contentOf(this.file);
    },
    get known() {
      return this;
    },
  };
}
