/** Files whose content is kept between runs, and the list of them. */
import { serialize } from 'node:v8';
import { EVENT_KINDS } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import type { BoxToKeep, Boxes } from '../../memory/boxes.ts';
import type { Stamp } from '../disk.ts';
import type { FileDays, Outline } from './outline.ts';
import { keysIn, packFiles, type KnownFiles, type Sought } from './packed.ts';
import type { RawFile } from '../raw.ts';

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
export interface KeptContents {
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
type KeptFile = Pick<
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
const TEXTS_OF_FILE = 7;
const NUMBERS = 5;

/** Files as they are kept. */
function keptFiles(files: readonly KeptFile[]): KeptFiles {
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
  contents: KeptContents,
): Map<string, Recalled> {
  const all = texts.split(BETWEEN);
  const shared = sharedBy(contents);
  const files = new Map<string, Recalled>();
  for (let at = 0, text = 0; at < numbers.length; at += NUMBERS, text += TEXTS_OF_FILE) {
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
function sharedBy({ of }: KeptContents): Pick<Recalled, 'root' | 'known'> & ThisType<Recalled> {
  return {
    get root() {
      return of(this.box, this.kind).contentOf(this.file);
    },
    get known() {
      return this;
    },
  };
}

/** The box of definitions, which has the outlines and ids of all files too. */
export const DEFINITIONS = 'definitions';
export const OUTLINES = 'outlines';
export const IDS = 'ids';
/** No id of a clean file holds it. */
export const BETWEEN_IDS = ' ';

/** What is to be kept. */
export interface Notes {
  files: readonly Keepable[] | undefined;
  readonly more: Map<string, unknown>;
  readonly parts: Map<string, Map<string, Uint8Array>>;
  /** Year and name of parts that no longer hold. */
  readonly dropped: Set<string>;
  isNew: boolean;
}

/** Nothing so far but what was kept before. */
export function newNotes({ more }: About): Notes {
  return {
    files: undefined,
    more: new Map(more),
    parts: new Map(),
    dropped: new Set(),
    isNew: false,
  };
}

/** What was kept, and what is to be. */
export interface Kept {
  readonly known: ReadonlyMap<string, Recalled>;
  readonly noted: Notes;
}

/** Only files that are as they were have a box already. */
export function isAsBefore({ known, noted: { files } }: Kept): boolean {
  return files === undefined || (files.length === known.size && files.every(isInBox));
}

/** Where it has a box already its content is there. */
type FileToKeep = Keepable | Recalled;

/** Whether it is as it was kept. */
export function isInBox(file: FileToKeep): file is Recalled {
  return 'box' in file;
}

/** A file of events is kept with the year of its first day, so that a change rewrites little. */
function boxOf({ kind, days }: FileToKeep): string {
  const isEvent = EVENTS.has(kind) && days !== undefined;
  return isEvent ? days[0].slice(0, 4) : DEFINITIONS;
}

const EVENTS: ReadonlySet<string> = new Set(EVENT_KINDS);

/** The boxes with all that was noted. */
export function toKeep(
  kept: Kept & { readonly boxes: Boxes },
  files: readonly FileToKeep[],
): { readonly about: About; readonly boxes: ReadonlyMap<string, BoxToKeep> } {
  const { boxes, known, noted } = kept;
  const now = grouped(files, boxOf);
  const before = grouped(known.values(), ({ box }) => box);
  const names = new Set([...boxes.places.keys(), ...now.keys(), ...noted.parts.keys()]);
  if (noted.files && !isAsBefore(kept)) {
    const outlines = noted.files.map((file) => [file.file, file.outline()] as const);
    const ids = noted.files.map((file) => [file.file, idsOf(file).join(BETWEEN_IDS)] as const);
    const definitions = noted.parts.get(DEFINITIONS) ?? new Map<string, Uint8Array>();
    definitions.set(OUTLINES, serialize(new Map(outlines)));
    definitions.set(IDS, serialize(new Map(ids)));
    noted.parts.set(DEFINITIONS, definitions);
  }
  const rows = files.map((file): KeptFile => ({
    file: file.file,
    kind: file.kind,
    odd: file.odd,
    stamp: file.stamp,
    days: file.days,
    content: file.content,
    box: boxOf(file),
    keys: isInBox(file) ? file.keys : keysIn(file.root),
  }));
  return {
    about: { files: keptFiles(rows), more: noted.more },
    boxes: new Map(
      [...names].flatMap((name) => {
        const content = { name, now: now.get(name) ?? [], before: before.get(name) ?? [] };
        const parts = boxParts(content, { boxes, noted });
        return parts?.size === 0 ? [] : [[name, parts] as const];
      }),
    ),
  };
}

function idsOf(file: FileToKeep): readonly string[] {
  return isInBox(file) ? file.ids() : file.kind === 'studio' ? [] : Object.keys(file.root);
}

/** The files of a box as they are and as they were. */
interface BoxContent {
  readonly name: string;
  readonly now: readonly FileToKeep[];
  readonly before: readonly Recalled[];
}

/** Undefined where nothing in the box is another. */
function boxParts(
  { name, now, before }: BoxContent,
  { boxes, noted }: { readonly boxes: Boxes; readonly noted: Notes },
): BoxToKeep {
  const there = [...(boxes.places.get(name)?.parts.keys() ?? [])];
  const kinds = [...new Set([...now, ...before].map(({ kind }) => kind))];
  const news = noted.parts.get(name) ?? new Map<string, Uint8Array>();
  const dropped = there.filter((part) => noted.dropped.has(`${name} ${part}`));
  const changed = kinds.filter((kind) => !isSame(kind, { name, now, before }));
  if (changed.length + dropped.length + news.size === 0) return undefined;
  const gone = new Set<string>([...changed, ...dropped, ...news.keys()]);
  const staying = there.filter((part) => !gone.has(part));
  const packed = changed.flatMap((kind) => {
    const own = now.filter((file) => file.kind === kind);
    return own.length === 0 ? [] : [[kind, packFiles(own)] as const];
  });
  return new Map<string, Uint8Array | undefined>([
    ...staying.map((part) => [part, undefined] as const),
    ...packed,
    ...news,
  ]);
}

function isSame(kind: string, { now, before }: BoxContent): boolean {
  const [is, was] = [now, before].map((files) => files.filter((file) => file.kind === kind));
  return is?.length === was?.length && is?.every(isInBox) === true;
}
