/** The records of a kind, file by file: those of a file are typed when one of them is first asked for. */
import type { Days, Records } from '../among.ts';
import { grouped } from '../grouping.ts';
import { madeOnce } from '../once.ts';
import type { Sought } from '../read/packed.ts';

/** A file's sound records. */
export interface RecordFile<T> {
  /** The ids of all its records, in their order. */
  readonly ids: () => readonly string[];
  readonly typed: () => ReadonlyMap<string, T>;
  /** The first and the last day that stands in it; absent where that is not known. */
  readonly days?: readonly [from: string, until: string] | undefined;
  /** The ids of the records in which something is; absent where that takes as long as to type them. */
  readonly idsWith?: (sought: Sought) => readonly string[];
}

/** All records of those files by id, in their order; no two may have one id. */
export function recordsIn<T>(files: readonly RecordFile<T>[]): Records<T> {
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
  for (const file of files) yield* fileHaving(file, sought);
}

function fileHaving<T>({ idsWith, typed }: RecordFile<T>, sought: Sought): Iterable<T> {
  return idsWith ? idsWith(sought).flatMap((id) => typed().get(id) ?? []) : typed().values();
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
