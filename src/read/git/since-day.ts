/** How git has the records of a day: not committed, changed since they were, or only in a later commit. */
import { NUMBER_KEYS } from '../../../schema/generated/fields.js';
import type { Day } from '../../book.ts';
import { addDays } from '../../number/date.ts';
import { readSource } from '../disk.ts';
import { kindOf } from '../kinds.ts';
import { mostIn } from '../records.ts';
import { decodeText } from '../text.ts';
import { scan } from '../yaml/scan.ts';
import { readBlobs } from './blobs.ts';
import type { Environment } from './program.ts';
import { openRepository, type Repository } from './repository.ts';
import { AT_ONCE, askGit } from './run.ts';
import { treeEntries } from './tree.ts';

/** What is to be said of a record beside git. */
export type CommitMark = 'not committed' | 'changed, not committed' | 'in a later commit';

/** A record, and the file that it stands in. */
interface RecordInFile {
  readonly id: string;
  readonly file: string;
}

interface AskedOfGit {
  readonly day: Day;
  readonly records: readonly RecordInFile[];
  /** The files that are not, or may not be, as they were committed. */
  readonly uncommitted: {
    readonly files: readonly string[];
    readonly uncompared: ReadonlyMap<string, string>;
  };
}

/**
 * The marks of those records that have one, by id. A later commit is one of a later day than the
 * records' own, by the clock of whoever made it, on the way from the first commit to the last one
 * (of a merge the first parent). Nothing is said of records from before the first commit, of files that
 * can't be compared, and where git does not answer at once. Never throws, and changes nothing.
 */
export async function commitMarks(
  studioDir: string,
  environment: Environment,
  { day, records, uncommitted }: AskedOfGit,
): Promise<ReadonlyMap<string, CommitMark>> {
  const marks = new Map<string, CommitMark>();
  const repository = records.length === 0 ? undefined : openRepository(studioDir, environment);
  if (repository === undefined || 'refused' in repository) return marks;
  const head = blobsIn(repository, 'HEAD');
  const known = records.filter(({ file }) => !uncommitted.uncompared.has(file));
  const view = { repository, head, studioDir };
  await markUncommitted(marks, known, { ...view, changed: new Set(uncommitted.files) });
  const committed = known.filter(({ id }) => !marks.has(id));
  await markLater(marks, committed, { ...view, day });
  return marks;
}

type Marks = Map<string, CommitMark>;

interface GitView {
  readonly repository: Repository;
  /** What was committed last; undefined before the first commit. */
  readonly head: BlobsByFile | undefined;
  readonly studioDir: string;
}

async function markUncommitted(
  marks: Marks,
  records: readonly RecordInFile[],
  { repository, head, studioDir, changed }: GitView & { readonly changed: ReadonlySet<string> },
): Promise<void> {
  const open = records.filter(({ file }) => changed.has(file));
  if (open.length === 0) return;
  // A record may have stood in another file, which then is changed too.
  const before = await recordsAt(repository, head, (file) => changed.has(file));
  if (!before) return;
  const now = await recordsOnDisk(studioDir, open);
  for (const { id } of open)
    if (!before.has(id)) marks.set(id, 'not committed');
    else if (before.get(id) !== now.get(id)) marks.set(id, 'changed, not committed');
}

async function markLater(
  marks: Marks,
  records: readonly RecordInFile[],
  { repository, head, day }: GitView & { readonly day: Day },
): Promise<void> {
  const last = head && lastCommitBy(repository, day);
  const then = last === undefined ? undefined : blobsIn(repository, last);
  if (!then) return;
  const isSame = (file: string): boolean => then.get(file) === head?.get(file);
  const moved = records.filter(({ file }) => !isSame(file));
  if (moved.length === 0) return;
  const there = await recordsAt(repository, then, (file) => !isSame(file));
  for (const { id } of moved) if (there?.has(id) === false) marks.set(id, 'in a later commit');
}

/** File → id of its content; undefined before the first commit. */
type BlobsByFile = ReadonlyMap<string, string>;

function blobsIn(repository: Repository, revision: string): BlobsByFile | undefined {
  const entries = treeEntries(repository, revision, { within: AT_ONCE });
  return 'failed' in entries ? undefined : new Map(entries.map(({ path, id }) => [path, id]));
}

/**
 * The last commit of the day or of one before it, where later ones followed; undefined where none did, and
 * where the first one came later.
 */
function lastCommitBy(repository: Repository, day: Day): string | undefined {
  const walk = ['rev-list', '--first-parent', '--format=%ci'];
  // A day begins at another moment in each zone, so the commits around it are looked at one by one.
  const since = `--since=${addDays(day, -1)}T00:00:00Z`;
  const near = commitsIn(askGit(repository, [...walk, since, 'HEAD'], { within: AT_ONCE }));
  const isLater = near.some((commit) => commit.day > day);
  const last = near.find((commit) => commit.day <= day);
  if (!isLater || last) return isLater ? last?.id : undefined;
  const before = `--before=${addDays(day, -1)}T00:00:00Z`;
  const words = [...walk, '--max-count=1', before, 'HEAD'];
  return commitsIn(askGit(repository, words, { within: AT_ONCE }))[0]?.id;
}

/** Of each commit a line with its id and one with its time: `commit 4f2a…`, `2026-03-12 18:02:11 +0100`. */
function commitsIn(printed = ''): { readonly id: string; readonly day: Day }[] {
  const found = printed.matchAll(/^commit ([0-9a-f]+)\n(\d{4}-\d\d-\d\d) /gm);
  return [...found].map(([, id = '', day = '']) => ({ id, day }));
}

/** Record id → its content, in a form that is the same for the same content. */
type RecordsById = ReadonlyMap<string, string>;

/** Undefined where git does not give the contents, so that nobody knows what was there. */
async function recordsAt(
  repository: Repository,
  contents: BlobsByFile | undefined,
  isWanted: (file: string) => boolean,
): Promise<RecordsById | undefined> {
  const wanted = [...(contents ?? [])].filter(([file]) => isWanted(file));
  const blobs = await readBlobs(
    repository,
    wanted.map(([, id]) => id),
  );
  if ('refused' in blobs) return undefined;
  const texts = wanted.map(([file, id]) => {
    const blob = blobs.get(id);
    const isThere = blob !== undefined && !('tooLarge' in blob);
    return [file, isThere ? decodeText(file, blob) : undefined] as const;
  });
  return recordsOfTexts(texts);
}

function recordsOnDisk(studioDir: string, records: readonly RecordInFile[]): Promise<RecordsById> {
  const files = [...new Set(records.map(({ file }) => file))];
  const texts = files.map((file) => {
    const source = readSource(studioDir, file);
    return [file, 'text' in source ? source.text : undefined] as const;
  });
  return recordsOfTexts(texts);
}

/** What can't be read has no records. */
async function recordsOfTexts(
  texts: readonly (readonly [file: string, text: string | object | undefined])[],
): Promise<RecordsById> {
  const records = new Map<string, string>();
  for (const [file, text] of texts) {
    const kind = kindOf(file);
    if (kind === undefined || kind === 'studio' || typeof text !== 'string') continue;
    const options = { numberKeys: NUMBER_KEYS, most: mostIn(file) };
    const read =
      scan(text, options) ?? (await import('../yaml/parse.ts')).parseText({ file, text }, options);
    for (const [id, record] of Object.entries(read.root)) records.set(id, JSON.stringify(record));
  }
  return records;
}
