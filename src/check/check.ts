/** The whole check, without disk: raw files to the book of all that is sound, and what is wrong. */
import type { Book } from '../book.ts';
import type { Finding } from '../problem.ts';
import type { CoreFile } from '../read/core.ts';
import type { RawFile } from '../read/raw.ts';
import type { OwnSheet } from '../read/tax-sheet.ts';
import { addFile, emptyDraft, finishBook, type Draft, type TakenBefore } from './draft.ts';
import { filingFindings } from './filings.ts';
import { runRules } from './rules.ts';
import { duplicateIds } from './rules/duplicate-id.ts';
import { strayFiles, type StrayFile } from './rules/stray-file.ts';
import { taxSheetFaults } from './rules/tax-sheet.ts';
import { checkFile, type CheckedFile } from './schema.ts';
import { unsoundIn } from './unsound.ts';

/** A raw file; a clean one was found without faults before, and has not changed since. */
export interface FileToCheck extends RawFile {
  readonly clean?: boolean;
  /** What its records can be taken from, where a book was made of it before. */
  readonly before?: TakenBefore;
}

/** What reading a studio gives: its files, and what was wrong with them as files. */
export interface Reading {
  readonly files: readonly FileToCheck[];
  readonly findings: readonly Finding[];
  readonly strays?: readonly StrayFile[];
  /** The tax sheet that the settings name, where it is a file of the studio's own. */
  readonly sheet?: OwnSheet | undefined;
  /** Those that filings name. */
  readonly filedSheets?: readonly OwnSheet[];
  /** A file as a YAML 1.2 core reader sees it; asked only for files that may have faults. */
  readonly coreOf: (file: string) => CoreFile | undefined;
}

/** The book, and everything that is wrong with it. */
export interface Checked {
  readonly book: Book;
  /** In no particular order. */
  readonly findings: readonly Finding[];
  /** Paths of the files that have no faults of their own, whatever the rules say of their records. */
  readonly clean: readonly string[];
}

/** A studio's records, typed, before any rule was run: all that is needed of its files from here on. */
export interface Taken {
  readonly draft: Draft;
  /** What is wrong with the files as files. */
  readonly unread: readonly Finding[];
  /** What is wrong with files in the wrong place, and in the records by themselves. */
  readonly faults: readonly Finding[];
  /** Paths of the files that have no faults of their own, whatever the rules say of their records. */
  readonly clean: readonly string[];
  readonly sheet: OwnSheet | undefined;
  /** All tax sheets of the studio's own that the settings or filings name. */
  readonly sheets: readonly OwnSheet[];
  /** Paths of the files that hold no records. */
  readonly strays: readonly string[];
}

/**
 * Holds every file against its schema and types what is sound. Records with faults of their own are
 * left out; of two records with one id, the first one is taken. Settings with faults are left out one
 * by one, and a studio without any has none but empty names.
 */
export function takeIn(reading: Reading): Taken {
  const draft = emptyDraft();
  const clean: string[] = [];
  const faults = reading.files.flatMap((file) => {
    const checked = file.clean ? withoutFaults(file) : checkFile(file, reading.coreOf);
    addFile(draft, file, checked);
    if (checked.findings.length === 0) clean.push(file.file);
    return checked.findings;
  });
  const { findings: unread, sheet, filedSheets = [], strays = [] } = reading;
  const sheets = [...(sheet ? [sheet] : []), ...filedSheets];
  const named = new Set([draft.studio.taxSheet, ...filedSheets.map(({ file }) => file)]);
  const stray = strayFiles(strays.filter(({ file }) => !named.has(file)));
  const files = strays.map(({ file }) => file);
  const inSheet = taxSheetFaults(draft.studio, { sheet, files });
  const all = [...stray, ...faults, ...inSheet];
  return { draft, unread, faults: all, clean, sheet, sheets, strays: files };
}

/**
 * Runs the rules over what was taken in, as of a day (ISO). `prepare` is given the book before, so
 * that they find what it reckons.
 */
export function judge(
  { draft, unread, faults, clean, sheets, strays }: Taken,
  day: string,
  prepare?: (book: Book) => void,
): Checked {
  const book = finishBook(draft);
  prepare?.(book);
  const unsound = unsoundIn(draft.unsound, unread);
  const doubled = duplicateIds(draft.named);
  // Before the others, which then make do with what it has reckoned.
  const filed = filingFindings(book, { day, unsound, own: sheets, files: strays });
  const broken = runRules(book, day, unsound);
  return { book, findings: [...unread, ...faults, ...doubled, ...filed, ...broken], clean };
}

/** Checks all of a studio as of a day: schemas, ids, then the rules. */
export function checkStudio(reading: Reading, day: string): Checked {
  return judge(takeIn(reading), day);
}

function withoutFaults({ root }: RawFile): CheckedFile {
  return { findings: [], sound: root };
}
