/** The ids of a studio's records alone, as quickly as they can be had; and single files by them. */
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import type { Kind } from '../book.ts';
import { unpackFiles, type KnownFiles } from './cache-records.ts';
import type { Store } from '../memory/store.ts';
import { loadParts } from './cache.ts';
import { isSameState, readSource, stampOf } from './disk.ts';
import { listFiles, type ListedFile } from './find.ts';
import { newTable } from './mapping.ts';
import type { RawMap } from './raw.ts';
import { cutRecords } from './records.ts';
import { scan } from './scan.ts';

/** A record's id, what it is, and where. */
export interface KnownId {
  readonly kind: Kind;
  readonly id: string;
  readonly file: string;
}

/** The ids, and what is in the files that some of them are in. */
export interface KnownIds {
  /** File by file, in the order of the kinds. */
  readonly ids: readonly KnownId[];
  /** What a file holds; of one that can't be read, nothing. */
  readonly contentOf: (file: string) => Promise<RawMap>;
}

/** Which ids are wanted. */
export interface IdsAsked {
  /** Where the studio is remembered, if anywhere. */
  readonly store: Store | undefined;
  readonly kinds: readonly Kind[];
  /** What they begin with; all when left out. */
  readonly start?: string;
}

/**
 * The ids of the records of some kinds that begin so. Of a file that the cache does not have as it is now, those
 * that begin its records at the margin; nothing is checked.
 */
export function idsIn(studioDir: string, { store, kinds, start = '' }: IdsAsked): KnownIds {
  const parts = store ? loadParts(store, kinds) : undefined;
  const { files } = listFiles(studioDir, kinds);
  const recalled = new Map<string, KnownFiles>();
  const ids = kinds.flatMap((kind) => {
    const known = unpacked(parts?.get(kind));
    return files.flatMap((listed) => {
      if (listed.kind !== kind) return [];
      const { file } = listed;
      const isKnown = known !== undefined && isAsKnown(studioDir, listed, known);
      if (isKnown) recalled.set(file, known);
      const own = isKnown ? known.idsOf(file) : readIds(studioDir, file);
      const fitting = start === '' ? own : own.filter((id) => id.startsWith(start));
      return fitting.map((id) => ({ kind, id, file }));
    });
  });
  const contentOf = async (file: string): Promise<RawMap> =>
    recalled.get(file)?.contentOf(file) ?? (await readContent(studioDir, file));
  return { ids, contentOf };
}

// A cache that can't be unpacked was not made by this program.
function unpacked(bytes: Uint8Array | undefined): KnownFiles | undefined {
  try {
    return bytes && unpackFiles(bytes);
  } catch {
    return undefined;
  }
}

function isAsKnown(studioDir: string, { file, linked }: ListedFile, known: KnownFiles): boolean {
  const before = linked ? undefined : known.files.get(file);
  if (before === undefined) return false;
  const now = stampOf(`${studioDir}/${file}`);
  return now !== undefined && isSameState(now, before.stamp);
}

function readIds(studioDir: string, file: string): readonly string[] {
  const source = readSource(studioDir, file);
  if (!('text' in source)) return [];
  const ids = cutRecords(source.text).records.flatMap(({ id }) => id ?? []);
  return [...new Set(ids)];
}

async function readContent(studioDir: string, file: string): Promise<RawMap> {
  const source = readSource(studioDir, file);
  if (!('text' in source)) return newTable();
  const options = { numberKeys: NUMBER_KEYS };
  const scanned = scan(source.text, options);
  if (scanned) return scanned.root;
  const { parseText } = await import('./parse.ts');
  return parseText({ file, text: source.text }, options).root;
}
