/** What is remembered of a studio's files from one run to the next, and when it still holds. */
import { deserialize } from 'node:v8';
import { MemoryLost, keepBoxes, openBoxes, type Boxes } from '../../memory/boxes.ts';
import type { StudioStore } from '../../memory/store.ts';
import { madeOnce } from '../../once.ts';
import { isSameState, isSettled, stampOf } from '../disk.ts';
import type { ListedFile } from '../find.ts';
import {
  BETWEEN_IDS,
  DEFINITIONS,
  IDS,
  NO_FILES,
  NO_STAMP,
  OUTLINES,
  filesKept,
  isAsBefore,
  isInBox,
  newNotes,
  toKeep,
  type About,
  type KeptContents,
  type Keepable,
  type Kept,
  type Notes,
  type Recalled,
} from './kept-files.ts';
import type { Outline } from './outline.ts';
import { unpackFiles, type KnownFiles } from './packed.ts';

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

/** Opens a studio's memory; without a store there is none. */
export function openMemory(studioDir: string, store: StudioStore | undefined): Memory {
  if (!store) return NO_MEMORY;
  const boxes = openBoxes(store);
  const about = (boxes.about ?? { files: NO_FILES, more: new Map() }) as About;
  const known = filesKept(about.files, contentsIn(boxes));
  const noted = newNotes(about);
  // Until a file is read anew none is settled.
  let moment = 0;
  return {
    recall: (listed) => {
      const kept = listed.linked ? undefined : known.get(listed.file);
      const now = kept && stampOf(`${studioDir}/${listed.file}`);
      return kept && now && isSameState(now, kept.stamp) ? kept : undefined;
    },
    asItWas: (file) => known.get(file),
    begin: () => {
      moment = store.clock();
    },
    keep: (files) => {
      const isSure = (file: Keepable): boolean => isInBox(file) || isSettled(file.stamp, moment);
      noted.files = files.map((file) => (isSure(file) ? file : { ...file, stamp: NO_STAMP }));
    },
    recallMore: (name) => about.more.get(name),
    recallPart: (year, name) => noted.parts.get(year)?.get(name) ?? boxes.part(year, name),
    ...notesIn(noted),
    save: () => {
      saveNotes(store, { boxes, known, noted });
    },
  };
}

function notesIn(noted: Notes): Pick<Memory, 'keepMore' | 'keepPart' | 'dropPart'> {
  return {
    keepMore: (name, value) => {
      noted.more.set(name, value);
      noted.isNew = true;
    },
    keepPart: (year, name, bytes) => {
      const parts = noted.parts.get(year) ?? new Map<string, Uint8Array>();
      noted.parts.set(year, parts.set(name, bytes));
      noted.isNew = true;
    },
    dropPart: (year, name) => {
      noted.dropped.add(`${year} ${name}`);
      noted.isNew = true;
    },
  };
}

function saveNotes(store: StudioStore, kept: Kept & { readonly boxes: Boxes }): void {
  const { boxes, known, noted } = kept;
  const { files = [...known.values()] } = noted;
  if (!noted.isNew && isAsBefore(kept)) return;
  try {
    keepBoxes(store, { ...toKeep(kept, files), found: boxes });
  } catch (error) {
    // Whoever changed it meanwhile has kept what there is.
    if (!(error instanceof MemoryLost)) throw error;
  }
}

/** What is in boxes, each part of them unpacked when it is first asked for. */
function contentsIn(boxes: Boxes): KeptContents {
  const known = new Map<string, KnownFiles>();
  const outlines = madeOnce(
    () => deserialize(boxes.part(DEFINITIONS, OUTLINES)) as Map<string, Outline>,
  );
  const ids = madeOnce(() => deserialize(boxes.part(DEFINITIONS, IDS)) as Map<string, string>);
  return {
    of: (box, kind) => {
      const name = `${box} ${kind}`;
      const files = known.get(name) ?? unpackFiles(boxes.part(box, kind));
      known.set(name, files);
      return files;
    },
    outlineOf: (file) => outlines().get(file) ?? lost(),
    idsOf: (file) => idsKept(ids().get(file) ?? lost()),
  };
}

function idsKept(text: string): readonly string[] {
  return text === '' ? [] : text.split(BETWEEN_IDS);
}

function lost(): never {
  throw new MemoryLost('what was remembered of a file is not there');
}
