/** Finds what a typed word names among all records of a studio, sound or not. */
import type { Kind } from '../book.ts';
import type { Raw, RawFile } from '../read/raw.ts';

/** A record as it stands in its file. */
export interface Named {
  readonly id: string;
  readonly kind: Kind;
  readonly file: string;
  readonly raw: Raw;
}

/** The records of a studio by id. */
export interface Lexicon {
  /** The record of that id; capitals count only where two ids differ by nothing else. */
  readonly find: (word: string) => Named | undefined;
  /** All records of the kinds, in the order of the files. */
  readonly records: (kinds: readonly Kind[]) => readonly Named[];
  /** Their ids. */
  readonly ids: (kinds: readonly Kind[]) => readonly string[];
}

/** Gathers the records of files; of two with one id the first counts. */
export function lexiconOf(files: readonly RawFile[]): Lexicon {
  const withRecords = files.flatMap((file) =>
    file.kind === 'studio' ? [] : [{ ...file, kind: file.kind }],
  );
  return {
    find: (word) => exactly(withRecords, word) ?? otherwiseWritten(withRecords, word),
    records: (kinds) => [...recordsOf(withRecords, kinds).values()],
    ids: (kinds) => [...recordsOf(withRecords, kinds).keys()],
  };
}

type FileOfRecords = RawFile & { readonly kind: Kind };

function recordsOf(
  files: readonly FileOfRecords[],
  kinds: readonly Kind[],
): ReadonlyMap<string, Named> {
  const records = new Map<string, Named>();
  const named = files
    .filter(({ kind }) => kinds.includes(kind))
    .flatMap(({ root, ...at }) => Object.entries(root).map(([id, raw]) => ({ ...at, id, raw })));
  for (const { id, kind, file, raw } of named)
    if (!records.has(id)) records.set(id, { id, kind, file, raw });
  return records;
}

// Nobody asks for more than a few ids, so no table of all of them is made.
function exactly(files: readonly FileOfRecords[], id: string): Named | undefined {
  for (const { kind, file, root } of files) {
    const raw = root[id];
    if (raw !== undefined) return { id, kind, file, raw };
  }
  return undefined;
}

function otherwiseWritten(files: readonly FileOfRecords[], word: string): Named | undefined {
  const small = word.toLowerCase();
  const isMeant = (id: string): boolean => id.length === word.length && id.toLowerCase() === small;
  for (const { kind, file, root } of files.toReversed()) {
    const id = Object.keys(root).findLast(isMeant);
    if (id !== undefined) return { id, kind, file, raw: root[id] ?? '' };
  }
  return undefined;
}
