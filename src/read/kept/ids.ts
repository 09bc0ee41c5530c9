/** The ids of a studio's records alone, as quickly as they can be had; and single files by them. */
import { NUMBER_KEYS } from '../../../schema/generated/fields.js';
import type { Kind } from '../../book.ts';
import type { StudioStore } from '../../memory/store.ts';
import { readSource } from '../disk.ts';
import { listFiles } from '../find.ts';
import { type Recalled } from './kept-files.ts';
import { openMemory } from './memory.ts';
import { newTable, type RawMap } from '../raw.ts';
import { cutRecords } from '../records.ts';
import { scan } from '../yaml/scan.ts';

/** A record's id, what it is, and where. */
export interface KnownId {
  readonly kind: Kind;
  readonly id: string;
  readonly file: string;
}

/** The ids, and what is in the files that some of them are in. */
interface KnownIds {
  /** File by file, in the order of the kinds. */
  readonly ids: readonly KnownId[];
  /** What a file holds; of one that can't be read, nothing. */
  readonly contentOf: (file: string) => Promise<RawMap>;
}

/** Which ids are wanted. */
interface IdsAsked {
  /** Where the studio is remembered, if anywhere. */
  readonly store: StudioStore | undefined;
  readonly kinds: readonly Kind[];
  /** What they begin with; all when left out. */
  readonly start?: string;
}

/**
 * The ids of the records of some kinds that begin so. Of a file that the cache does not have as it is now, those
 * that begin its records at the margin; nothing is checked.
 */
export function idsIn(studioDir: string, { store, kinds, start = '' }: IdsAsked): KnownIds {
  const { recall } = openMemory(studioDir, store);
  const { files } = listFiles(studioDir, kinds);
  const recalled = new Map<string, Recalled>();
  const ids = kinds.flatMap((kind) =>
    files.flatMap((listed) => {
      if (listed.kind !== kind) return [];
      const { file } = listed;
      const known = recall(listed);
      if (known) recalled.set(file, known);
      const own = known?.ids() ?? readIds(studioDir, file);
      const fitting = start === '' ? own : own.filter((id) => id.startsWith(start));
      return fitting.map((id) => ({ kind, id, file }));
    }),
  );
  const contentOf = async (file: string): Promise<RawMap> =>
    recalled.get(file)?.root ?? (await readContent(studioDir, file));
  return { ids, contentOf };
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
  const { parseText } = await import('../yaml/parse.ts');
  return parseText({ file, text: source.text }, options).root;
}
