/** Plans a change: what the studio's files would be, and whether the studio would still be sound. */
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import type { Book, Day, Kind } from '../book.ts';
import { checkStudio, type Reading } from '../check/check.ts';
import { countOf } from '../fold.ts';
import type { Finding, Problem } from '../problem.ts';
import { coreFile, type CoreFile } from '../read/core.ts';
import { parseText } from '../read/parse.ts';
import { locateIn, textOnDisk } from '../read/place.ts';
import type { RawFile } from '../read/raw.ts';
import { scan } from '../read/scan.ts';
import { sheetsFiled, sheetsOnDisk } from '../read/tax-sheet.ts';
import { compareTexts } from '../text-order.ts';
import type { Change } from '../write/store.ts';
import type { BookEnd, KnownEnd } from './book-end.ts';
import type { TouchedRecord } from './effect.ts';
import { bookEnd } from './find-end.ts';
import { freshFindings } from './fresh.ts';
import { withoutMark } from './given.ts';
import type { Holdings } from './held.ts';
import { holdingsOf } from './holdings.ts';

/** A studio as it was opened: everything that a plan starts from. */
export interface OpenedStudio {
  readonly folder: string;
  readonly reading: Reading;
  readonly book: Book;
  readonly findings: readonly Finding[];
  /** The day that the book is looked at. */
  readonly asOf: Day;
  /** Where the book ends; undefined where a look at the whole of it has to tell. */
  readonly known?: KnownEnd | undefined;
}

/** A file's new text; without `after` the file goes. */
export interface Edited extends Change {
  readonly kind: Kind | 'studio';
}

/** What is to be changed, and which records that is about. */
export interface Edits {
  readonly files: readonly Edited[];
  readonly touched: readonly TouchedRecord[];
}

/** A change that has been looked at from all sides, and not been made. */
export interface Plan {
  readonly changes: readonly Change[];
  readonly touched: readonly TouchedRecord[];
  /** What would be wrong that is not wrong now, with its places in the new texts. */
  readonly problems: readonly Problem[];
  /** Whether all of them are in other records than those that are touched. */
  readonly elsewhere: boolean;
  /** How many of the problems are errors; with any, the plan is not to be carried out. */
  readonly errors: number;
  /** All that would be wrong, as the check says it. */
  readonly findings: readonly Finding[];
  /** The book on both sides of the change, and the day that it is looked at. */
  readonly sides: { readonly before: Book; readonly after: Book; readonly asOf: Day };
  /** What is held before the change and after it, and where the book would end. */
  readonly held: () => Holdings;
  readonly holds: () => Holdings;
  readonly end: () => BookEnd;
}

/** Checks the studio as it would be with the new texts; nothing is written. */
export async function planEdits(opened: OpenedStudio, { files, touched }: Edits): Promise<Plan> {
  const texts = new Map(files.map(({ file, after }) => [file, after]));
  const reading = await withFiledSheets(readingWith(opened, files), opened.folder);
  const after = checkStudio(reading, opened.asOf);
  const ids = new Set(touched.map(({ id }) => id));
  const fresh = freshFindings(opened.findings, after.findings, ids);
  const problems = await located(opened.folder, fresh, texts);
  const { book, asOf } = opened;
  return {
    changes: files.map(({ file, before, after: text }) => ({ file, before, after: text })),
    touched,
    problems,
    elsewhere:
      fresh.length > 0 && fresh.every(({ at }) => !('path' in at) || !ids.has(String(at.path[0]))),
    errors: countOf(fresh.filter(({ severity }) => severity === 'error')),
    findings: after.findings,
    sides: { before: book, after: after.book, asOf },
    held: () => opened.known?.held ?? holdingsOf(book, asOf),
    holds: () => holdingsOf(after.book, asOf),
    end: () => bookEnd(after.book),
  };
}

/**
 * The reading with the changed files in place of the old ones. The others are not read again, and
 * those that nothing was found in are not held against their schemas again.
 */
function readingWith(
  { reading, findings, book }: OpenedStudio,
  edited: readonly Edited[],
): Reading {
  const changed = new Set(edited.map(({ file }) => file));
  const parsed = edited.flatMap((each) => parsedFile(each) ?? []);
  const ill = new Set(findings.map(({ at }) => at.file));
  const others = reading.files
    .filter(({ file }) => !changed.has(file))
    .map((file) => ({ ...file, clean: !ill.has(file.file), before: { book, root: file.root } }));
  const texts = new Map(edited.map(({ file, after }) => [file, after ?? '']));
  const roots = new Map(reading.files.map(({ file, root }) => [file, root]));
  const fresh = parsed.map(({ raw }) => {
    const root = roots.get(raw.file);
    return root ? { ...raw, before: { book, root } } : raw;
  });
  return {
    ...reading,
    files: [...others, ...fresh].sort((a, b) => compareTexts(a.file, b.file)),
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

/** A filing that is new may name a sheet that nobody has read yet. */
async function withFiledSheets(reading: Reading, folder: string): Promise<Reading> {
  return { ...reading, filedSheets: await sheetsFiled(reading.files, sheetsOnDisk(folder)) };
}

interface ParsedFile {
  readonly raw: RawFile;
  readonly findings: readonly Finding[];
}

function parsedFile({ file, kind, after }: Edited): ParsedFile | undefined {
  if (after === undefined) return undefined;
  const source = { file, text: withoutMark(after) };
  const plain = scan(source.text, { numberKeys: NUMBER_KEYS });
  if (plain) return { raw: { file, kind, ...plain }, findings: [] };
  const { root, odd, findings } = parseText(source, { numberKeys: NUMBER_KEYS });
  return { raw: { file, kind, root, odd }, findings };
}

function coreOfText(file: string, text: string): CoreFile {
  const source = { file, text: withoutMark(text) };
  return coreFile(parseText(source, { numberKeys: NUMBER_KEYS, marks: true }).root);
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
