/** The findings of a studio, put together from what was found before as far as that still holds. */
import { KINDS, type Book, type Entry } from '../../../src/book.ts';
import {
  foundOnDay,
  foundOver,
  foundShort,
  inOrderOf,
  looksThat,
  recordsLooker,
  type Found,
  type FoundInFile,
  type Judging,
  type LookOf,
} from '../../../src/check/looking.ts';
import { concerns, type Asked } from '../../../src/check/reach.ts';
import type { OverLook, Rule } from '../../../src/check/rule.ts';
import { shortIn } from '../../../src/check/shortfalls.ts';
import { grouped } from '../../../src/grouping.ts';
import type { Finding } from '../../../src/problem.ts';
import type { RawFile } from '../../../src/read/raw.ts';
import { countsFlow } from '../../../src/reckon/flow.ts';
import { bookOf } from './same-records.ts';

/** A studio, and what was found in it. */
export interface Pieced extends Judging {
  readonly findings: readonly Finding[];
  /** How many files and looks over kinds were not looked at again. */
  readonly kept: number;
  readonly files: ReadonlyMap<string, KeptFile>;
  readonly over: ReadonlyMap<OverLook, Found>;
}

interface KeptFile {
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
export function pieced(
  raw: readonly RawFile[],
  { rules, day, before: last, prepare }: Scene,
): Pieced {
  const { book, unsound } = bookOf(raw);
  prepare?.(book);
  const judging = { rules, book, unsound };
  const before = last?.book.studio === book.studio ? last : undefined;
  const [files, keptFiles] = lookAtFiles(judging, before, raw);
  const [over, keptLooks] = lookOver(judging, before, day);
  const short = shortIn(countsFlow(book, day), judging);
  const findings = [
    ...[...files.values()].flatMap(({ look }) => look.findings),
    ...[...over.values()].flatMap((found) => found.findings),
    ...looksThat('short', rules).flatMap((each) => foundShort(each, { book, short })),
    ...looksThat('day', rules).flatMap((each) => foundOnDay(each, { ...judging, day })),
  ];
  const kept = keptFiles + keptLooks;
  return { ...judging, findings: inOrderOf(rules, findings), kept, files, over };
}

function lookOver(
  judging: Judging,
  before: Pieced | undefined,
  day: string,
): [ReadonlyMap<OverLook, Found>, number] {
  const { rules, book, unsound } = judging;
  const changes = before && changedRecords(before.book, book);
  const known = ({ look }: LookOf<OverLook>): Found | undefined => {
    const old = before?.over.get(look);
    if (!before || !old || before.unsound.ids.size + unsound.ids.size > 0) return undefined;
    if (before.unsound.kinds.size + unsound.kinds.size > 0) return undefined;
    const isConcerned = changes?.some((change) => concerns(look.over, { ...change, day }));
    return !isConcerned && isSameOf(old.asked, before.book, book) ? old : undefined;
  };
  let kept = 0;
  const found = looksThat('over', rules).map((each): [OverLook, Found] => {
    const old = known(each);
    if (old) kept += 1;
    return [each.look, old ?? foundOver(each, judging)];
  });
  return [new Map(found), kept];
}

function lookAtFiles(
  judging: Judging,
  before: Pieced | undefined,
  files: readonly RawFile[],
): [ReadonlyMap<string, KeptFile>, number] {
  const { book } = judging;
  const lookAt = recordsLooker(judging);
  const records = grouped(
    KINDS.flatMap((kind): Entry[] => [...book[kind].values()]),
    ({ file }) => file,
  );
  let kept = 0;
  const looked = files.map(({ file, kind }): [string, KeptFile] => {
    const now: readonly Entry[] = records.get(file) ?? [];
    const old = before?.files.get(file);
    if (before && old && holds(old, now, { before: before.book, book })) {
      kept += 1;
      return [file, old];
    }
    const look = lookAt({ kind, records: kind === 'studio' ? [book.studio] : now });
    return [file, { records: now, look }];
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
    records.every((record, at) => record === now[at]) &&
    isSameOf(look.asked, before, book)
  );
}

function isSameOf(asked: Asked, before: Book, book: Book): boolean {
  return [...asked].every(([kind, ids]) =>
    [...ids].every((id) => before[kind].get(id) === book[kind].get(id)),
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
        .filter((record: Entry) => other[kind].get(record.id) !== record)
        .map((record) => ({ kind, record, book: one })),
    ),
  );
}
