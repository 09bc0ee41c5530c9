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
  const withRecords = files.filter(isOfRecords);
  return {
    find: (word) => exactly(withRecords, word) ?? otherwiseWritten(withRecords, word),
    records: (kinds) => [...recordsOf(withRecords, kinds).values()],
    ids: (kinds) => [...recordsOf(withRecords, kinds).keys()],
  };
}

type FileOfRecords = RawFile & { readonly kind: Kind; readonly known?: KnownIds };

/** The ids of a file, where they can be had without the records. */
interface KnownIds {
  readonly ids: () => readonly string[];
}

function isOfRecords(file: RawFile): file is FileOfRecords {
  return file.kind !== 'studio';
}

function idsOf(file: FileOfRecords): readonly string[] {
  return file.known?.ids() ?? Object.keys(file.root);
}

function recordsOf(
  files: readonly FileOfRecords[],
  kinds: readonly Kind[],
): ReadonlyMap<string, Named> {
  const records = new Map<string, Named>();
  const named = files
    .filter(({ kind }) => kinds.includes(kind))
    .flatMap(({ root, kind, file }) =>
      Object.entries(root).map(([id, raw]) => ({ kind, file, id, raw })),
    );
  for (const { id, kind, file, raw } of named)
    if (!records.has(id)) records.set(id, { id, kind, file, raw });
  return records;
}

// Nobody asks for more than a few ids, so no table of all of them is made.
function exactly(files: readonly FileOfRecords[], id: string): Named | undefined {
  const found = files.find((file) => idsOf(file).includes(id));
  return found && namedIn(found, id);
}

function otherwiseWritten(files: readonly FileOfRecords[], word: string): Named | undefined {
  const small = word.toLowerCase();
  const isMeant = (id: string): boolean => id.length === word.length && id.toLowerCase() === small;
  for (const file of files.toReversed()) {
    const id = idsOf(file).findLast(isMeant);
    if (id !== undefined) return namedIn(file, id);
  }
  return undefined;
}

function namedIn({ kind, file, root }: FileOfRecords, id: string): Named {
  return { id, kind, file, raw: root[id] ?? '' };
}
