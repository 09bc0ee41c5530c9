/** What is remembered of a studio's files from one run to the next, and when it still holds. */
import { Buffer } from 'node:buffer';
import { deserialize, serialize } from 'node:v8';
import { EVENT_KINDS, type Kind } from '../book.ts';
import { grouped } from '../grouping.ts';
import { MemoryLost, keepBoxes, openBoxes, type BoxToKeep, type Boxes } from '../memory/boxes.ts';
import type { Store } from '../memory/store.ts';
import { isSameState, isSettled, stampOf, type Stamp } from './disk.ts';
import type { ListedFile } from './find.ts';
import type { FileDays, Outline } from './outline.ts';
import { packFiles, unpackFiles, type KnownFiles, type Sought } from './packed.ts';
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

/** A studio's memory in one run. */
export interface Memory {
  /** A file that is as it was when it was found clean; undefined for any other. */
  readonly recall: (listed: ListedFile) => Recalled | undefined;
  /** A file as it was when something was last kept, whatever it is now. */
  readonly asItWas: (file: string) => Recalled | undefined;
  /** To be called before files are read anew: only of what is read after it can be kept. */
  readonly begin: () => void;
  /**
   * Notes the clean files, which are to be kept; all others are forgotten. Of those that may yet change
   * without a new stamp only what they were is kept, and they are read again.
   */
  readonly keep: (files: readonly Keepable[]) => void;
  /** Something else that was kept under a name; as data that may be of any form. */
  readonly recallMore: (name: string) => unknown;
  readonly keepMore: (name: string, value: unknown) => void;
  /** A part of a year that was kept. Throws `MemoryLost` where it is not there. */
  readonly recallPart: (year: string, name: string) => Uint8Array;
  readonly keepPart: (year: string, name: string, bytes: Uint8Array) => void;
  readonly dropPart: (year: string, name: string) => void;
  /** Writes what was noted, where anything was. */
  readonly save: () => void;
}

/** A memory that knows nothing and keeps nothing. */
export const NO_MEMORY: Memory = {
  recall: () => undefined,
  asItWas: () => undefined,
  begin: () => undefined,
  keep: () => undefined,
  recallMore: () => undefined,
  keepMore: () => undefined,
  recallPart: () => new Uint8Array(),
  keepPart: () => undefined,
  dropPart: () => undefined,
  save: () => undefined,
};

/** What is kept of all boxes: where each file's records are, and what else was noted. */
interface About {
  readonly files: KeptFiles;
  readonly more: ReadonlyMap<string, unknown>;
}

interface KeptFile extends Omit<Keepable, 'root' | 'outline'> {
  readonly box: string;
}

/** The files in columns: their texts one after the other, and their stamps. */
interface KeptFiles {
  /** In UTF-8. */
  readonly texts: Uint8Array;
  readonly stamps: Float64Array;
}

const NO_FILES: KeptFiles = { texts: new Uint8Array(), stamps: new Float64Array() };
// No path holds it, and nothing else that is kept of a file does.
const BETWEEN = '\0';
const TEXTS = 7;
const NUMBERS = 4;

function keptFiles(files: readonly KeptFile[]): KeptFiles {
  const texts: string[] = [];
  const stamps: number[] = [];
  for (const { file, kind, box, content, odd, days: [from, until] = ['', ''], stamp } of files) {
    texts.push(file, kind, box, content, odd ? 'odd' : '', from, until);
    stamps.push(stamp.size, stamp.modified, stamp.changed, stamp.inode);
  }
  return { texts: Buffer.from(texts.join(BETWEEN)), stamps: new Float64Array(stamps) };
}

function filesKept({ texts, stamps }: KeptFiles): Map<string, KeptFile> {
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

/** Opens a studio's memory; without a store there is none. */
export function openMemory(studioDir: string, store: Store | undefined): Memory {
  if (!store) return NO_MEMORY;
  const boxes = openBoxes(store);
  const about = (boxes.about ?? { files: NO_FILES, more: new Map() }) as About;
  const known = filesKept(about.files);
  const recalled = new Map<string, Recalled>();
  const noted = newNotes(about);
  const unpacked = unpackedFrom(boxes);
  // Until a file is read anew none is settled.
  let moment = 0;
  return {
    recall: (listed) => {
      const kept = listed.linked ? undefined : known.get(listed.file);
      const now = kept && stampOf(`${studioDir}/${listed.file}`);
      if (!kept || !now || !isSameState(now, kept.stamp)) return undefined;
      const file = recalledFile(kept, unpacked);
      recalled.set(file.file, file);
      return file;
    },
    asItWas: (file) => {
      const kept = known.get(file);
      return kept && recalledFile(kept, unpacked);
    },
    begin: () => {
      moment = store.clock();
    },
    keep: (files) => {
      const isSure = (file: Keepable): boolean =>
        recalled.get(file.file) === file || isSettled(file.stamp, moment);
      noted.files = files.map((file) => (isSure(file) ? file : { ...file, stamp: NO_STAMP }));
    },
    recallMore: (name) => about.more.get(name),
    keepMore: (name, value) => {
      noted.more.set(name, value);
      noted.isNew = true;
    },
    recallPart: (year, name) => noted.parts.get(year)?.get(name) ?? boxes.part(year, name),
    keepPart: (year, name, bytes) => {
      const parts = noted.parts.get(year) ?? new Map<string, Uint8Array>();
      noted.parts.set(year, parts.set(name, bytes));
      noted.isNew = true;
    },
    dropPart: (year, name) => {
      noted.dropped.add(`${year} ${name}`);
      noted.isNew = true;
    },
    save: () => {
      const { files = [...known.values()] } = noted;
      if (!noted.isNew && isAsBefore({ known, noted })) return;
      try {
        keepBoxes(store, { ...toKeep({ boxes, known, noted }, files), found: boxes });
      } catch (error) {
        // Whoever changed it meanwhile has kept what there is.
        if (!(error instanceof MemoryLost)) throw error;
      }
    },
  };
}

/** Of no file. */
export const NO_STAMP: Stamp = { size: -1, modified: 0, changed: 0, inode: 0 };

/** What is to be kept. */
interface Notes {
  files: readonly Keepable[] | undefined;
  readonly more: Map<string, unknown>;
  readonly parts: Map<string, Map<string, Uint8Array>>;
  /** Year and name of parts that no longer hold. */
  readonly dropped: Set<string>;
  isNew: boolean;
}

function newNotes({ more }: About): Notes {
  return {
    files: undefined,
    more: new Map(more),
    parts: new Map(),
    dropped: new Set(),
    isNew: false,
  };
}

/** The parts of boxes, each unpacked when it is first asked for. */
interface Unpacked {
  readonly files: (box: string, kind: Kind | 'studio') => KnownFiles;
  readonly outlines: () => ReadonlyMap<string, Outline>;
  readonly ids: () => ReadonlyMap<string, string>;
}

function unpackedFrom(boxes: Boxes): Unpacked {
  const known = new Map<string, KnownFiles>();
  return {
    files: (box, kind) => {
      const name = `${box} ${kind}`;
      const files = known.get(name) ?? unpackFiles(boxes.part(box, kind));
      known.set(name, files);
      return files;
    },
    outlines: onceOf(() => deserialize(boxes.part(DEFINITIONS, OUTLINES)) as Map<string, Outline>),
    ids: onceOf(() => deserialize(boxes.part(DEFINITIONS, IDS)) as Map<string, string>),
  };
}

function onceOf<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => (made ??= { value: make() }).value;
}

const DEFINITIONS = 'definitions';
const OUTLINES = 'outlines';
const IDS = 'ids';
// No id of a clean file holds it.
const BETWEEN_IDS = ' ';

function recalledFile({ box, ...kept }: KeptFile, unpacked: Unpacked): Recalled {
  const { file, kind } = kept;
  return {
    ...kept,
    get root() {
      return unpacked.files(box, kind).contentOf(file);
    },
    outline: () => unpacked.outlines().get(file) ?? lost(),
    ids: () => idsKept(unpacked.ids().get(file) ?? lost()),
    idsWith: (sought) => unpacked.files(box, kind).idsWith(file, sought),
  };
}

function idsKept(text: string): readonly string[] {
  return text === '' ? [] : text.split(BETWEEN_IDS);
}

function lost(): never {
  throw new MemoryLost('what was remembered of a file is not there');
}

interface Kept {
  readonly known: ReadonlyMap<string, KeptFile>;
  readonly noted: Notes;
}

/** Only files that are as they were have a box already. */
function isAsBefore({ known, noted: { files } }: Kept): boolean {
  return files === undefined || (files.length === known.size && files.every(isInBox));
}

function isInBox(file: FileToKeep): boolean {
  return 'ids' in file || 'box' in file;
}

/** Where it has a box already its content is there. */
type FileToKeep = Keepable | KeptFile;

/** A file of events is kept with the year of its first day, so that a change rewrites little. */
function boxOf({ kind, days }: FileToKeep): string {
  const isEvent = EVENTS.has(kind) && days !== undefined;
  return isEvent ? days[0].slice(0, 4) : DEFINITIONS;
}

const EVENTS: ReadonlySet<string> = new Set(EVENT_KINDS);

function toKeep(
  kept: Kept & { readonly boxes: Boxes },
  files: readonly FileToKeep[],
): { readonly about: About; readonly boxes: ReadonlyMap<string, BoxToKeep> } {
  const { boxes, known, noted } = kept;
  const now = grouped(files, boxOf);
  const before = grouped(known.values(), ({ box }) => box);
  const names = new Set([...boxes.names.keys(), ...now.keys(), ...noted.parts.keys()]);
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
  }));
  return {
    about: { files: keptFiles(rows), more: noted.more },
    boxes: new Map(
      [...names].flatMap((name) => {
        const content = { name, now: now.get(name) ?? [], before: before.get(name) ?? [] };
        const parts = partsOf(content, { boxes, noted });
        return parts?.size === 0 ? [] : [[name, parts] as const];
      }),
    ),
  };
}

function idsOf(file: Keepable | Recalled): readonly string[] {
  return 'ids' in file ? file.ids() : file.kind === 'studio' ? [] : Object.keys(file.root);
}

/** The files of a box as they are and as they were. */
interface BoxContent {
  readonly name: string;
  readonly now: readonly FileToKeep[];
  readonly before: readonly KeptFile[];
}

/** Undefined where nothing in the box is another. */
function partsOf(
  { name, now, before }: BoxContent,
  { boxes, noted }: { readonly boxes: Boxes; readonly noted: Notes },
): BoxToKeep {
  const there = boxes.names.get(name) ?? [];
  const kinds = [...new Set([...now, ...before].map(({ kind }) => kind))];
  const news = noted.parts.get(name) ?? new Map<string, Uint8Array>();
  const dropped = there.filter((part) => noted.dropped.has(`${name} ${part}`));
  const changed = kinds.filter((kind) => !isSame(kind, { name, now, before }));
  if (changed.length + dropped.length + news.size === 0) return undefined;
  const gone = new Set<string>([...changed, ...dropped, ...news.keys()]);
  const staying = there.filter((part) => !gone.has(part));
  const packed = changed.flatMap((kind) => {
    const own = now.filter((file) => file.kind === kind).filter(hasContent);
    return own.length === 0 ? [] : [[kind, packFiles(own)] as const];
  });
  return new Map<string, Uint8Array>([
    ...staying.map((part) => [part, boxes.part(name, part)] as const),
    ...packed,
    ...news,
  ]);
}

function hasContent(file: FileToKeep): file is Keepable {
  return 'root' in file;
}

function isSame(kind: string, { now, before }: BoxContent): boolean {
  const [is, was] = [now, before].map((files) => files.filter((file) => file.kind === kind));
  return is?.length === was?.length && is?.every(isInBox) === true;
}
