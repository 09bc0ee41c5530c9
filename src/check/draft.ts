/** A book in the making: file by file, the sound records to be typed and the unsound ones set aside. */
import type { Days, Records } from '../among.ts';
import { KINDS, type Book, type Entry, type Kind, type Studio } from '../book.ts';
import { grouped } from '../grouping.ts';
import { madeOnce } from '../once.ts';
import { daysIn, outlineOf, type FileDays, type Outline } from '../read/kept/outline.ts';
import type { Sought } from '../read/kept/packed.ts';
import type { Raw, RawFile, RawMap } from '../read/raw.ts';
import { duplicateIds, type NamedRecord } from './rules/files.ts';
import type { CheckedFile } from './schema.ts';
import { typeRecord, typeStudio } from './typed.ts';

/** A record, or the settings, that has faults of its own. */
export interface UnsoundRecord {
  readonly kind: Kind | 'studio';
  readonly id: string;
  readonly raw: Raw;
}

/** What has been taken in so far. */
export interface Draft {
  studio: Studio;
  /** Whether no id stands twice, as far as that is known. */
  isUnique?: boolean;
  /** In the order of their paths. */
  readonly files: TakenFile[];
  readonly unsound: UnsoundRecord[];
}

/** A file of records that was taken in. */
export interface TakenFile extends RecordFile<Entry> {
  readonly kind: Kind;
  readonly file: string;
  readonly days: FileDays;
  readonly outline: () => Outline;
  /** A fingerprint of its text, where that is known. */
  readonly content: string | undefined;
}

const NO_STUDIO: Studio = { file: 'studio.yaml', format: '1', name: '', currency: '' };

/** No records yet. */
export function emptyDraft(): Draft {
  return { studio: NO_STUDIO, files: [], unsound: [] };
}

/** A file to be taken in, with a fingerprint of its text where that is known. */
type FileToTake = RawFile & { readonly content?: string };

/** What is known of a file that is as it was, without a look at its records. */
export type KnownRecords = Pick<TakenFile, 'ids' | 'days' | 'outline'> &
  Required<Pick<TakenFile, 'idsWith'>>;

/** What is told of a file that was taken in. */
type Outlined = Pick<TakenFile, 'file' | 'days' | 'outline'> & {
  readonly kind: Kind | 'studio';
};

/** Takes in a checked file: the sound records are typed when they are first asked for. */
export function addFile(draft: Draft, raw: FileToTake, checked: CheckedFile): Outlined {
  const { file, kind, root, content } = raw;
  const { sound } = checked;
  const days = daysIn(sound);
  const outline = madeOnce(() => outlineOf({ file, kind, root: sound }));
  if (kind === 'studio') {
    addSettings(draft, { file, root }, checked);
    return { file, kind, days, outline };
  }
  for (const id of Object.keys(root))
    if (sound[id] === undefined) draft.unsound.push({ kind, id, raw: root[id] ?? '' });
  const ids = madeOnce(() => Object.keys(root));
  const typed = madeOnce(() => typedRecords({ file, kind, root: sound }));
  return added(draft, { file, kind, content, days, outline, ids, typed });
}

/** Takes in a file in which nothing was found wrong before; it is looked into when it must be. */
export function addKnown(draft: Draft, raw: FileToTake, known: KnownRecords): Outlined {
  const { file, kind, content } = raw;
  const { ids, idsWith, days, outline } = known;
  if (kind === 'studio') {
    addSettings(draft, raw, { findings: [], sound: raw.root });
    return { file, kind, days, outline };
  }
  const typed = madeOnce(() => typedRecords({ file, kind, root: raw.root }));
  return added(draft, { file, kind, content, days, outline, ids, idsWith, typed });
}

function added({ files }: Draft, file: TakenFile): TakenFile {
  files.push(file);
  return file;
}

/** Every record, sound or not, in the order of the files. */
export function* namedIn({ files }: Draft): Generator<NamedRecord> {
  for (const { kind, file, ids } of files) for (const id of ids()) yield { id, kind, file };
}

/** The book of all that was taken in; of two records of one kind and id the first one counts. */
export function finishBook(draft: Draft): Book {
  const isUnique = (draft.isUnique ??= duplicateIds(namedIn(draft)).length === 0);
  const files = grouped(draft.files, ({ kind }) => kind);
  const recordsOf = isUnique ? recordsIn : firstOfEach;
  const kinds = KINDS.map((kind) => [kind, recordsOf(files.get(kind) ?? [])] as const);
  return { studio: draft.studio, ...Object.fromEntries(kinds) } as unknown as Book;
}

function firstOfEach(files: readonly RecordFile<Entry>[]): ReadonlyMap<string, Entry> {
  const all = files.flatMap(({ typed }) => [...typed()]);
  // Of two with one key a map has the later one, but the place of the first.
  const first = new Map(all.toReversed());
  return new Map(all.map(([id, record]) => [id, first.get(id) ?? record]));
}

/** The typed records of a sound file. */
export function typedRecords({
  kind,
  file,
  root,
}: Pick<TakenFile, 'kind' | 'file'> & { readonly root: RawMap }): ReadonlyMap<string, Entry> {
  const typed = (id: string): Entry => typeRecord(kind, root[id] as RawMap, { id, file });
  return new Map(Object.keys(root).map((id) => [id, typed(id)]));
}

// One wrong setting must not take the others away: the currency decides over every amount.
function addSettings(
  draft: Draft,
  { file, root }: Pick<RawFile, 'file' | 'root'>,
  { findings }: CheckedFile,
): void {
  const faulty = new Set(findings.map(({ at }) => ('path' in at ? at.path[0] : undefined)));
  const sound = Object.entries(root).filter(([key]) => !faulty.has(key));
  draft.studio = { ...NO_STUDIO, ...typeStudio(Object.fromEntries(sound), file) };
  if (findings.length > 0) draft.unsound.push({ kind: 'studio', id: '', raw: root });
}

/** A file's sound records. */
interface RecordFile<T> {
  /** The ids of all its records, in their order. */
  readonly ids: () => readonly string[];
  readonly typed: () => ReadonlyMap<string, T>;
  /** The first and the last day that stands in it; absent where that is not known. */
  readonly days?: readonly [from: string, until: string] | undefined;
  /** The ids of the records in which something is; absent where that takes as long as to type them. */
  readonly idsWith?: (sought: Sought) => readonly string[];
}

/** All records of those files by id, in their order; no two may have one id. */
function recordsIn<T>(files: readonly RecordFile<T>[]): Records<T> {
  const find = finderIn(files);
  const records: Records<T> = {
    get size() {
      return files.reduce((all, file) => all + file.typed().size, 0);
    },
    get: (id) => find(id)?.typed().get(id),
    has: (id) => find(id)?.typed().has(id) === true,
    *keys() {
      for (const file of files) yield* file.typed().keys();
      return undefined;
    },
    *values() {
      for (const file of files) yield* file.typed().values();
      return undefined;
    },
    *entries() {
      for (const file of files) yield* file.typed().entries();
      return undefined;
    },
    forEach: (act) => {
      for (const [id, record] of records) act(record, id, records);
    },
    [Symbol.iterator]: () => records.entries(),
    during: (days) => during(files, days),
    having: (key) => having(files, { key }),
    naming: (texts) => having(files, { texts }),
  };
  return records;
}

function* during<T>(files: readonly RecordFile<T>[], { from = '', to = LAST }: Days): Generator<T> {
  for (const { days: [first, last] = ['', LAST], typed } of files)
    if (first <= to && last >= from) yield* typed().values();
}

const LAST = '9999-12-31';

function* having<T>(files: readonly RecordFile<T>[], sought: Sought): Generator<T> {
  for (const { idsWith, typed } of files)
    yield* idsWith?.(sought).flatMap((id) => typed().get(id) ?? []) ?? typed().values();
}

/** The file that a record is in. An id as `add` makes it tells its day: there it is looked for first. */
function finderIn<T>(files: readonly RecordFile<T>[]): (id: string) => RecordFile<T> | undefined {
  const byMonth = madeOnce(() => grouped(files, ({ days }) => days?.[0].slice(0, 7) ?? ''));
  const near = new Map<string, ReadonlyMap<string, RecordFile<T>>>();
  const all = madeOnce(() => fileOfEach(files));
  return (id) => {
    const month = monthInId(id);
    const known = near.get(month) ?? fileOfEach(byMonth().get(month) ?? []);
    near.set(month, known);
    return known.get(id) ?? all().get(id);
  };
}

function fileOfEach<T>(files: readonly RecordFile<T>[]): ReadonlyMap<string, RecordFile<T>> {
  const found = new Map<string, RecordFile<T>>();
  for (const file of files) for (const id of file.ids()) found.set(id, file);
  return found;
}

const MONTH_IN_ID = /(\d{2})(\d{2})\d{2}/;

function monthInId(id: string): string {
  const [, year = '', month = ''] = MONTH_IN_ID.exec(id) ?? [];
  return `20${year}-${month}`;
}
