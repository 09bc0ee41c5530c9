/** What is remembered of a studio's files from one run to the next, and when it still holds. */
import { KINDS, type Kind } from '../book.ts';
import { packFiles, unpackFiles, type KnownFiles } from './cache-records.ts';
import type { Store } from '../memory/store.ts';
import { loadParts, storeParts, type Part } from './cache.ts';
import { isSameState, isSettled, stampOf, type Stamp } from './disk.ts';
import type { ListedFile } from './find.ts';
import type { RawFile } from './raw.ts';

/** A file whose content may be kept. */
export interface Keepable extends RawFile {
  /** The state in which it was read. */
  readonly stamp: Stamp;
}

/** A studio's memory in one run. */
export interface Memory {
  /** The content of a file that is as it was when it was found clean; undefined for any other. */
  readonly recall: (listed: ListedFile) => Keepable | undefined;
  /** To be called before files are read anew: only of what is read after it can be kept. */
  readonly begin: () => void;
  /** Keeps the clean files of the parts that were asked for, and forgets all others of them. */
  readonly keep: (files: readonly Keepable[]) => void;
}

/** A memory that knows nothing and keeps nothing. */
export const NO_MEMORY: Memory = {
  recall: () => undefined,
  begin: () => undefined,
  keep: () => undefined,
};

/** Opens a studio's memory for some kinds (all when left out) and the settings. */
export function openMemory(
  studioDir: string,
  store: Store,
  kinds: readonly Kind[] = KINDS,
): Memory {
  const parts: readonly Part[] = ['studio', ...kinds];
  const known = knownParts(loadParts(store, parts));
  const recalled = new Set<Keepable>();
  // Until a file is read anew none is settled.
  let moment = 0;
  return {
    recall: (listed) => {
      const file = recallFile(studioDir, listed, known.get(listed.kind));
      if (file) recalled.add(file);
      return file;
    },
    begin: () => {
      moment = store.clock();
    },
    keep: (files) => {
      const sure = files.filter((file) => recalled.has(file) || isSettled(file.stamp, moment));
      const byPart = new Map(parts.map((part) => [part, sure.filter(({ kind }) => kind === part)]));
      const changed = [...byPart].filter(([part, now]) => {
        const before = known.get(part)?.files.size ?? 0;
        return now.length !== before || !now.every((file) => recalled.has(file));
      });
      if (changed.length === 0) return;
      storeParts(store, new Map(changed.map(([part, now]) => [part, packFiles(now)])));
    },
  };
}

function knownParts(parts: ReadonlyMap<Part, Uint8Array>): Map<Part, KnownFiles> {
  const known = new Map<Part, KnownFiles>();
  for (const [part, bytes] of parts) {
    const files = attempt(() => unpackFiles(bytes));
    if (files) known.set(part, files);
  }
  return known;
}

function recallFile(
  studioDir: string,
  { file, kind, linked }: ListedFile,
  known: KnownFiles | undefined,
): Keepable | undefined {
  const before = linked ? undefined : known?.files.get(file);
  if (!known || !before) return undefined;
  const now = stampOf(`${studioDir}/${file}`);
  if (!now || !isSameState(now, before.stamp)) return undefined;
  const root = attempt(() => known.contentOf(file));
  return root && { file, kind, root, odd: before.odd, stamp: now };
}

// A cache of the right stamp and checksum that can't be unpacked was not made by this program.
function attempt<T>(make: () => T): T | undefined {
  try {
    return make();
  } catch {
    return undefined;
  }
}
