/** The findings of a studio, put together from what was found before as far as that still holds. */
import { isDeepStrictEqual } from 'node:util';
import { KINDS, type Book, type Entry } from '../../../src/book.ts';
import { takeIn, type ChangedReading, type Reading } from '../../../src/check/check.ts';
import { finishBook, type TakenFile } from '../../../src/check/draft.ts';
import {
  foundOnDay,
  foundOver,
  foundShort,
  inOrderOf,
  looksThat,
  recordsLooker,
  type Asked,
  type Found,
  type FoundInFile,
  type LookOf,
} from '../../../src/check/looking.ts';
import { concerns } from '../../../src/check/reach.ts';
import type { LookedAt, OverLook, Rule, Unsound } from '../../../src/check/rule.ts';
import { shortIn } from '../../../src/check/shortfalls.ts';
import { unsoundIn } from '../../../src/check/unsound.ts';
import { grouped } from '../../../src/grouping.ts';
import type { Finding } from '../../../src/problem.ts';
import { countsFlow } from '../../../src/reckon/flow.ts';
import type { RawMap } from '../../../src/read/raw.ts';

/** A studio, and what was found in it. */
export interface Pieced {
  readonly book: Book;
  readonly unsound: Unsound;
  readonly findings: readonly Finding[];
  /** How many files and looks over kinds were not looked at again. */
  readonly kept: number;
  readonly roots: ReadonlyMap<string, RawMap>;
  /** Files without faults of their own. */
  readonly clean: ReadonlySet<string>;
  readonly taken: ReadonlyMap<string, TakenFile>;
  readonly files: ReadonlyMap<string, KeptFile>;
  readonly over: ReadonlyMap<OverLook, Found>;
}

interface KeptFile {
  readonly kind: LookedAt;
  readonly records: readonly Entry[];
  readonly look: FoundInFile;
}

interface Scene {
  readonly rules: readonly Rule[];
  readonly day: string;
  readonly before: Pieced | undefined;
  /** Is given the book before it is looked at. */
  readonly prepare?: ((book: Book) => void) | undefined;
}

/** Looks at a studio on a day: only at what may have something new since before. */
export function pieced(reading: Reading, { rules, day, before, prepare }: Scene): Pieced {
  const taken = takeIn({ ...reading, files: reading.files.map((file) => known(file, before)) });
  const clean = new Set(taken.clean.map(({ file }) => file));
  const byFile = new Map(taken.draft.files.map((file) => [file.file, file]));
  const book = finishBook(taken.draft);
  prepare?.(book);
  const unsound = unsoundIn(taken.draft.unsound, taken.unread);
  const roots = new Map(reading.files.map(({ file, root }) => [file, root]));
  const judging = { rules, book, unsound };
  const isSame = before !== undefined && sameSettings(before, roots);
  const [files, keptFiles] = lookAtFiles(judging, isSame ? before : undefined, reading);
  const changes = isSame ? changedRecords(before.book, book) : undefined;
  const isKept = ({ look }: LookOf<OverLook>): boolean => {
    const old = before?.over.get(look);
    if (!before || !old || !changes || !isSound(before.unsound) || !isSound(unsound)) return false;
    const isConcerned = changes.some((change) => concerns(look.over, { ...change, day }));
    return !isConcerned && isSameOf(old.asked, before.book, book);
  };
  const overs = looksThat('over', rules);
  const over = new Map(
    overs.map((each) => {
      const old = isKept(each) ? before?.over.get(each.look) : undefined;
      return [each.look, old ?? foundOver(each, judging)];
    }),
  );
  const short = shortIn(countsFlow(book, day), judging);
  const findings = [
    ...[...files.values()].flatMap(({ look }) => look.findings),
    ...[...over.values()].flatMap((found) => found.findings),
    ...looksThat('short', rules).flatMap((each) => foundShort(each, { book, short })),
    ...looksThat('day', rules).flatMap((each) => foundOnDay(each, { ...judging, day })),
  ];
  const kept = keptFiles + overs.filter(isKept).length;
  return {
    book,
    unsound,
    findings: inOrderOf(rules, findings),
    kept,
    roots,
    clean,
    taken: byFile,
    files,
    over,
  };
}

/** A clean file that is as it was, as it was taken in then: its records are the same. */
function known(
  file: Reading['files'][number],
  before: Pieced | undefined,
): ChangedReading['files'][number] {
  const isSame = before?.roots.get(file.file) === file.root && before.clean.has(file.file);
  return (isSame ? before.taken.get(file.file) : undefined) ?? file;
}

function sameSettings({ roots }: Pieced, now: ReadonlyMap<string, RawMap>): boolean {
  return roots.get('studio.yaml') === now.get('studio.yaml');
}

function isSound({ ids, kinds }: Unsound): boolean {
  return ids.size + kinds.size === 0;
}

function lookAtFiles(
  judging: { readonly rules: readonly Rule[]; readonly book: Book; readonly unsound: Unsound },
  before: Pieced | undefined,
  { files }: Reading,
): [ReadonlyMap<string, KeptFile>, number] {
  const { book } = judging;
  const lookAt = recordsLooker(judging);
  const records = grouped(
    KINDS.flatMap((kind): Entry[] => [...book[kind].values()]),
    ({ file }) => file,
  );
  let kept = 0;
  const looked = files.map(({ file, kind }): [string, KeptFile] => {
    const now: readonly Entry[] = kind === 'studio' ? [] : (records.get(file) ?? []);
    const old = before?.files.get(file);
    if (before && old && holds(old, now, { before: before.book, book })) {
      kept += 1;
      return [file, old];
    }
    const look = lookAt({ kind, records: kind === 'studio' ? [book.studio] : now });
    return [file, { kind, records: now, look }];
  });
  return [new Map(looked), kept];
}

/** As long as the records of the file are the same, and all that they asked for. */
function holds(
  { records, look }: KeptFile,
  now: readonly Entry[],
  { before, book }: { readonly before: Book; readonly book: Book },
): boolean {
  return (
    look.isWhole &&
    records.length === now.length &&
    records.every((record, at) => isSameRecord(record, now[at])) &&
    isSameOf(look.asked, before, book)
  );
}

function isSameRecord(one: Entry | undefined, other: Entry | undefined): boolean {
  return one === other || isDeepStrictEqual(one, other);
}

function isSameOf(asked: Asked, before: Book, book: Book): boolean {
  return [...asked].every(([kind, ids]) =>
    [...ids].every((id) => isSameRecord(before[kind].get(id), book[kind].get(id))),
  );
}

/** Every record that came, went or changed: as it was in its book, and as it is in the new one. */
function changedRecords(before: Book, book: Book): Omit<Parameters<typeof concerns>[1], 'day'>[] {
  return KINDS.flatMap((kind) =>
    [
      { one: before, other: book },
      { one: book, other: before },
    ].flatMap(({ one, other }) =>
      [...one[kind].values()]
        .filter((record: Entry) => !isSameRecord(other[kind].get(record.id), record))
        .map((record) => ({ kind, record, book: one })),
    ),
  );
}
