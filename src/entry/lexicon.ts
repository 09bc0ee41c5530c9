/** Finds what a typed word names among all records of a studio, sound or not. */
import type { Kind } from '../book.ts';
import { cached, cachedFor } from '../once.ts';
import type { Raw, RawFile } from '../read/raw.ts';

/** A record as it stands in its file. */
export interface FoundRecord {
  readonly id: string;
  readonly kind: Kind;
  readonly file: string;
  readonly raw: Raw;
}

/** The records of a studio by id. */
export interface Lexicon {
  /** The record of that id; capitals count only where two ids differ by nothing else. */
  readonly find: (word: string) => FoundRecord | undefined;
  /** All records of the kinds, in the order of the files. */
  readonly records: (kinds: readonly Kind[]) => readonly FoundRecord[];
  /** Their ids. */
  readonly ids: (kinds: readonly Kind[]) => readonly string[];
}

/** Gathers the records of files; of two with one id the first counts. */
export const lexiconOf: (files: readonly RawFile[]) => Lexicon = cachedFor((files) => {
  const withRecords = files.filter(isOfRecords);
  return {
    find: cached(
      (word: string) => exactly(withRecords, word) ?? otherwiseWritten(withRecords, word),
    ),
    records: (kinds) => [...recordsByKind(withRecords, kinds).values()],
    ids: (kinds) => [...recordsByKind(withRecords, kinds).keys()],
  };
});

type FileOfRecords = RawFile & { readonly kind: Kind; readonly known?: IdsOfFile };

/** The ids of a file, where they can be had without the records. */
interface IdsOfFile {
  readonly ids: () => readonly string[];
}

function isOfRecords(file: RawFile): file is FileOfRecords {
  return file.kind !== 'studio';
}

function idsInFile(file: FileOfRecords): readonly string[] {
  return file.known?.ids() ?? Object.keys(file.root);
}

function recordsByKind(
  files: readonly FileOfRecords[],
  kinds: readonly Kind[],
): ReadonlyMap<string, FoundRecord> {
  const records = new Map<string, FoundRecord>();
  const named = files
    .filter(({ kind }) => kinds.includes(kind))
    .flatMap(({ root, kind, file }) =>
      Object.entries(root).map(([id, raw]) => ({ kind, file, id, raw })),
    );
  for (const { id, kind, file, raw } of named)
    if (!records.has(id)) records.set(id, { id, kind, file, raw });
  return records;
}

// Nobody asks for more than a few ids, so no table of all of them is made; a few are asked for often.
function exactly(files: readonly FileOfRecords[], id: string): FoundRecord | undefined {
  const found = files.find((file) => idsInFile(file).includes(id));
  return found && namedIn(found, id);
}

function otherwiseWritten(files: readonly FileOfRecords[], word: string): FoundRecord | undefined {
  const small = word.toLowerCase();
  const isMeant = (id: string): boolean => id.length === word.length && id.toLowerCase() === small;
  for (const file of files.toReversed()) {
    const id = idsInFile(file).findLast(isMeant);
    if (id !== undefined) return namedIn(file, id);
  }
  return undefined;
}

function namedIn({ kind, file, root }: FileOfRecords, id: string): FoundRecord {
  return { id, kind, file, raw: root[id] ?? '' };
}
