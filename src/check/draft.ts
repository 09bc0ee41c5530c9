/** A book in the making: file by file, the sound records to be typed and the unsound ones set aside. */
import { KINDS, type Book, type Entry, type Kind, type Studio } from '../book.ts';
import { grouped } from '../grouping.ts';
import { daysIn, outlineOf, type FileDays, type Outline } from '../read/outline.ts';
import type { Raw, RawFile, RawMap } from '../read/raw.ts';
import { madeOnce } from '../once.ts';
import { recordsIn, type RecordFile } from './record-files.ts';
import { duplicateIds, type NamedRecord } from './rules/duplicate-id.ts';
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
export type KnownContent = Pick<TakenFile, 'ids' | 'days' | 'outline'> &
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
export function addKnown(draft: Draft, raw: FileToTake, known: KnownContent): Outlined {
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
