/** What a run has noted for the next one, and the boxes that it goes into. */
import { serialize } from 'node:v8';
import { EVENT_KINDS } from '../book.ts';
import { grouped } from '../grouping.ts';
import type { BoxToKeep, Boxes } from '../memory/boxes.ts';
import {
  keptFiles,
  type About,
  type Keepable,
  type KeptFile,
  type Recalled,
} from './kept-files.ts';
import { keysIn, packFiles } from './packed.ts';

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
        const parts = partsOf(content, { boxes, noted });
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
function partsOf(
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
