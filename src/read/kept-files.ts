/** Files whose content is kept between runs, and the list of them. */
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
  /** Those that stand in its records. */
  readonly keys: readonly string[];
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
  'file' | 'keys' | 'kind' | 'box' | 'content' | 'odd' | 'days' | 'stamp'
>;

/** The files in columns: their texts one after the other, and their numbers. */
interface KeptFiles {
  readonly texts: string;
  readonly numbers: Float64Array;
  /** Lists of keys: many files share them. */
  readonly keys: readonly (readonly string[])[];
}

/** None. */
export const NO_FILES: KeptFiles = { texts: '', numbers: new Float64Array(), keys: [] };
// No path holds it, and nothing else that is kept of a file does.
const BETWEEN = '\0';
const TEXTS = 7;
const NUMBERS = 5;

/** Files as they are kept. */
export function keptFiles(files: readonly KeptFile[]): KeptFiles {
  const texts: string[] = [];
  const numbers: number[] = [];
  const lists = new Map<string, { readonly at: number; readonly keys: readonly string[] }>();
  for (const { file, kind, box, content, odd, days: [from, until] = ['', ''], ...more } of files) {
    const { keys, stamp } = more;
    const name = keys.join(BETWEEN);
    const list = lists.get(name) ?? { at: lists.size, keys };
    lists.set(name, list);
    texts.push(file, kind, box, content, odd ? 'odd' : '', from, until);
    numbers.push(stamp.size, stamp.modified, stamp.changed, stamp.inode, list.at);
  }
  const keys = Array.from(lists.values(), (list) => list.keys);
  return { texts: texts.join(BETWEEN), numbers: new Float64Array(numbers), keys };
}

/** Files as they were, by their paths. */
export function filesKept(
  { texts, numbers, keys: lists }: KeptFiles,
  contents: Contents,
): Map<string, Recalled> {
  const all = texts.split(BETWEEN);
  const shared = sharedBy(contents);
  const files = new Map<string, Recalled>();
  for (let at = 0, text = 0; at < numbers.length; at += NUMBERS, text += TEXTS) {
    const file = all[text] ?? '';
    const kind = all[text + 1] as RawFile['kind'];
    const box = all[text + 2] ?? '';
    const keys = lists[numbers[at + 4] ?? 0] ?? [];
    const from = all[text + 5] ?? '';
    // Field by field, for there are thousands.
    files.set(file, {
      __proto__: shared,
      file,
      kind,
      box,
      keys,
      content: all[text + 3] ?? '',
      odd: all[text + 4] !== '',
      days: from === '' ? undefined : [from, all[text + 6] ?? ''],
      stamp: {
        size: numbers[at] ?? 0,
        modified: numbers[at + 1] ?? 0,
        changed: numbers[at + 2] ?? 0,
        inode: numbers[at + 3] ?? 0,
      },
      outline: () => contents.outlineOf(file),
      ids: () => contents.idsOf(file),
      idsWith: (sought: Sought) =>
        'key' in sought && !keys.includes(sought.key)
          ? []
          : contents.of(box, kind).idsWith(file, sought),
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
