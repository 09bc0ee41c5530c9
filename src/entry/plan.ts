/** Plans a change: what the studio's files would be, and whether the studio would still be sound. */
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import type { Book, Day, Kind } from '../book.ts';
import type { Judged } from '../check/check.ts';
import { yearsTyped } from '../check/doubts/year-typed.ts';
import type { ChangedReading, ReadingToCheck, TakenIn } from '../check/taken.ts';
import { countOf } from '../fold.ts';
import type { Finding, Place, Problem, Spot } from '../problem.ts';
import { coreFile, type CoreFile } from '../read/yaml/core.ts';
import { parseText } from '../read/yaml/parse.ts';
import { locateIn, textOnDisk } from '../read/place.ts';
import { contentOf, type EditedFile } from '../read/read.ts';
import { scan } from '../read/yaml/scan.ts';
import { sheetsFiled, sheetsOnDisk } from '../read/tax-sheet.ts';
import { compareTexts } from '../text-order.ts';
import type { FileToWrite } from '../write/store.ts';
import { holdingsOf, type Holdings, type TouchedRecord } from './effect.ts';
import { withoutMark } from './given.ts';

/** A studio as it was opened: everything that a plan starts from. */
export interface OpenedStudio {
  readonly folder: string;
  readonly reading: ReadingToCheck;
  readonly taken: TakenIn;
  /** What another state of the studio comes to on that day. */
  readonly judge: (reading: ChangedReading) => Judged;
  readonly book: Book;
  readonly findings: readonly Finding[];
  /** The day that the book is looked at. */
  readonly asOf: Day;
}

/** A file's new text; without `after` the file goes. */
export interface Edited extends FileToWrite {
  readonly kind: Kind | 'studio';
}

/** What is to be changed, and which records that is about. */
interface Edits {
  readonly files: readonly Edited[];
  readonly touched: readonly TouchedRecord[];
}

/** A change that has been looked at from all sides, and not been made. */
export interface ChangePlan {
  readonly changes: readonly FileToWrite[];
  readonly touched: readonly TouchedRecord[];
  /** What would be wrong that is not wrong now, with its places in the new texts. */
  readonly problems: readonly Problem[];
  /** Whether all of them are in other records than those that are touched. */
  readonly elsewhere: boolean;
  /** How many of the problems are errors; with any, the plan is not to be carried out. */
  readonly errors: number;
  readonly after: Judged;
  /** The files that change, as they will be read. */
  readonly edited: readonly EditedFile[];
  /** The book on both sides of the change, and the day that it is looked at. */
  readonly sides: { readonly before: Book; readonly after: Book; readonly asOf: Day };
  /** What is held before the change and after it. */
  readonly held: () => Holdings;
  readonly holds: () => Holdings;
}

/** Checks the studio as it would be with the new texts; nothing is written. */
export async function planEdits(
  opened: OpenedStudio,
  { files, touched }: Edits,
): Promise<ChangePlan> {
  const texts = new Map(files.map(({ file, after }) => [file, after]));
  const parsed = files.flatMap((each) => parsedFile(each) ?? []);
  const reading = await readingWith(opened, files, parsed);
  const after = opened.judge(reading);
  const ids = new Set(touched.map(({ id }) => id));
  const { book, asOf } = opened;
  const fresh = [
    ...freshFindings(opened.findings, after.findings, ids),
    ...yearsTyped({ before: book, after: after.book, asOf }, touched),
  ];
  const problems = await located(opened.folder, fresh, texts);
  return {
    changes: files.map(({ file, before, after: text }) => ({ file, before, after: text })),
    touched,
    after,
    edited: parsed.map(({ raw }) => raw),
    problems,
    elsewhere:
      fresh.length > 0 && fresh.every(({ at }) => !('path' in at) || !ids.has(String(at.path[0]))),
    errors: countOf(fresh.filter(({ severity }) => severity === 'error')),
    sides: { before: book, after: after.book, asOf },
    held: () => holdingsOf(book, asOf),
    holds: () => holdingsOf(after.book, asOf),
  };
}

/** The reading with the changed files in place of the old ones. */
async function readingWith(
  opened: OpenedStudio,
  edited: readonly Edited[],
  parsed: readonly ParsedFile[],
): Promise<ChangedReading> {
  const { reading } = opened;
  const changed = new Set(edited.map(({ file }) => file));
  const texts = new Map(edited.map(({ file, after }) => [file, after ?? '']));
  const fresh = parsed.map(({ raw }) => raw);
  const files = [...filesBut(opened, changed), ...fresh];
  const others = reading.files.filter(({ file }) => !changed.has(file));
  // A filing that is new may name a sheet that nobody has read yet.
  const filedSheets = await sheetsFiled([...others, ...fresh], sheetsOnDisk(opened.folder));
  return {
    ...reading,
    filedSheets,
    files: files.sort((a, b) => compareTexts(a.file, b.file)),
    findings: [
      ...reading.findings.filter(({ at }) => !changed.has(at.file)),
      ...parsed.flatMap(({ findings }) => findings),
    ],
    coreOf: (file) => {
      const text = texts.get(file);
      return text === undefined ? reading.coreOf(file) : coreOfText(file, text);
    },
  };
}

/** All files but some, as they were taken in; those with faults to be looked at again. */
export function filesBut(
  { reading, taken }: Pick<OpenedStudio, 'reading' | 'taken'>,
  but: ReadonlySet<string>,
): ChangedReading['files'] {
  const clean = new Set(taken.clean.map(({ file }) => file));
  const known = new Map(taken.draft.files.map((file) => [file.file, file]));
  return reading.files
    .filter(({ file }) => !but.has(file))
    .map((file) => (clean.has(file.file) ? (known.get(file.file) ?? file) : file));
}

interface ParsedFile {
  readonly raw: EditedFile;
  readonly findings: readonly Finding[];
}

function parsedFile({ file, kind, after }: Edited): ParsedFile | undefined {
  if (after === undefined) return undefined;
  const source = { file, text: withoutMark(after) };
  const plain = scan(source.text, { numberKeys: NUMBER_KEYS });
  const content = contentOf(source);
  if (plain) return { raw: { file, kind, ...plain, content }, findings: [] };
  const { root, odd, findings } = parseText(source, { numberKeys: NUMBER_KEYS });
  return { raw: { file, kind, root, odd, content }, findings };
}

function coreOfText(file: string, text: string): CoreFile {
  const source = { file, text: withoutMark(text) };
  return coreFile(parseText(source, { numberKeys: NUMBER_KEYS, marks: true }).root, source.text);
}

/** Places in the new texts where a file changes, else in the files as they are. */
function located(
  folder: string,
  findings: readonly Finding[],
  texts: ReadonlyMap<string, string | undefined>,
): Promise<readonly Problem[]> {
  return locateIn((file) => {
    const text = texts.get(file);
    return text === undefined ? textOnDisk(folder, file) : withoutMark(text);
  }, findings);
}

/**
 * The findings that were not there before, in their order. Elsewhere than in the touched records a
 * finding counts as known where the same rule has spoken at the same place, for its words may hold
 * sums that the change moved; within them, only where the words are the same too.
 */
export function freshFindings(
  before: readonly Finding[],
  after: readonly Finding[],
  touched: ReadonlySet<string>,
): readonly Finding[] {
  const known = new Map<string, number>();
  for (const finding of before) {
    const key = findingKey(finding, touched);
    known.set(key, (known.get(key) ?? 0) + 1);
  }
  return after.filter((finding) => {
    const key = findingKey(finding, touched);
    const left = known.get(key) ?? 0;
    known.set(key, left - 1);
    return left <= 0;
  });
}

function findingKey(finding: Finding, touched: ReadonlySet<string>): string {
  const { rule, severity, at, message, untold } = finding;
  if (untold !== undefined) return [rule, severity, at.file].join('\n');
  const words = isPlace(at) || touched.has(String(at.path[0])) ? message : '';
  return [rule, severity, at.file, siteOf(at), words].join('\n');
}

// Lines move when a record is put in above them, so a counted place is known by its line's text.
function siteOf(at: Spot | Place): string {
  return isPlace(at) ? at.source : [...at.path, at.on ?? 'value'].join('\n');
}

function isPlace(at: Spot | Place): at is Place {
  return 'line' in at;
}
