/** A book in the making: file by file, the sound records typed and the unsound ones set aside. */
import { KINDS, type Book, type Entry, type Kind, type RecordOf, type Studio } from '../book.ts';
import { isSameRaw, type Raw, type RawFile, type RawMap } from '../read/raw.ts';
import type { NamedRecord } from './rules/duplicate-id.ts';
import type { CheckedFile } from './schema.ts';
import { typeRecord, typeStudio } from './typed.ts';

/** A record, or the settings, that has faults of its own. */
export interface UnsoundRecord {
  readonly kind: Kind | 'studio';
  readonly id: string;
  readonly raw: Raw;
}

type Records = { readonly [K in Kind]: Map<string, RecordOf[K]> };

/** What has been taken in so far. */
export interface Draft {
  studio: Studio;
  readonly records: Records;
  /** Every record, sound or not, in the order of the files. */
  readonly named: NamedRecord[];
  readonly unsound: UnsoundRecord[];
}

const NO_STUDIO: Studio = { file: 'studio.yaml', format: '1', name: '', currency: '' };

/** No records yet. */
export function emptyDraft(): Draft {
  const records = Object.fromEntries(
    KINDS.map((kind) => [kind, new Map<string, RecordOf[Kind]>()]),
  ) as unknown as Records;
  return { studio: NO_STUDIO, records, named: [], unsound: [] };
}

/** A file, and what its records can be taken from, if anything. */
type FileToTake = RawFile & { readonly before?: TakenBefore };

/** A book that was made of this file, or of another state of it among others. */
export interface TakenBefore {
  readonly book: Book;
  /** The file as it was taken into that book: a record that is the same in it needs no typing again. */
  readonly root: RawMap;
}

/** Takes in a checked file: sound records are typed, the first of an id counts. */
export function addFile(draft: Draft, file: FileToTake, checked: CheckedFile): void {
  if (file.kind === 'studio') {
    addSettings(draft, file, checked);
    return;
  }
  addRecords(draft, { ...file, kind: file.kind }, checked.sound);
}

/** The book of all that was taken in. */
export function finishBook({ studio, records }: Draft): Book {
  return { studio, ...records };
}

function addRecords(
  { records, named, unsound }: Draft,
  { kind, file, root, before }: FileToTake & { readonly kind: Kind },
  sound: RawMap,
): void {
  const taken: Map<string, unknown> = records[kind];
  const typed: ReadonlyMap<string, Entry> | undefined = before?.book[kind];
  const isKnown = (id: string): boolean =>
    before?.root === root || isSameRaw(root[id], before?.root[id]);
  for (const id of Object.keys(root)) {
    named.push({ id, kind, file });
    const raw = sound[id];
    const known = typed?.get(id);
    if (raw === undefined) unsound.push({ kind, id, raw: root[id] ?? '' });
    else if (!taken.has(id))
      taken.set(
        id,
        known?.file === file && isKnown(id) ? known : typeRecord(kind, raw as RawMap, { id, file }),
      );
  }
}

// One wrong setting must not take the others away: the currency decides over every amount.
function addSettings(draft: Draft, { file, root }: RawFile, { findings }: CheckedFile): void {
  const faulty = new Set(findings.map(({ at }) => ('path' in at ? at.path[0] : undefined)));
  const sound = Object.entries(root).filter(([key]) => !faulty.has(key));
  draft.studio = { ...NO_STUDIO, ...typeStudio(Object.fromEntries(sound), file) };
  if (findings.length > 0) draft.unsound.push({ kind: 'studio', id: '', raw: root });
}
