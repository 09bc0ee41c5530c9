/** Takes a studio's raw files in: every file held against its schema, and what is sound in it typed. */
import type { Day, Kind } from '../book.ts';
import type { Finding } from '../problem.ts';
import type { CoreFile } from '../read/yaml/core.ts';
import type { FileDays, Outline } from '../read/kept/outline.ts';
import type { RawFile } from '../read/raw.ts';
import type { OwnSheet } from '../read/tax-sheet.ts';
import {
  addFile,
  addKnown,
  emptyDraft,
  type Draft,
  type KnownRecords,
  type TakenFile,
} from './draft.ts';
import { strayFiles, type StrayFile } from './rules/files.ts';
import { taxSheetFaults } from './rules/tax-sheet.ts';
import { checkFile } from './schema.ts';

/** A raw file. */
export interface FileToCheck extends RawFile {
  /** What is known of it where it was found without faults before, and has not changed since. */
  readonly known?: KnownRecords;
  /** A fingerprint of its text. */
  readonly content?: string;
}

/** What reading a studio gives: its files, and what was wrong with them as files. */
export interface ReadingToCheck {
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

/** The same with another state of some files: the others need no second look where they have no faults. */
export type ChangedReading = Omit<ReadingToCheck, 'files'> & {
  readonly files: readonly (FileToCheck | TakenFile)[];
};

/** What classes and fairs have ahead of them decides on nothing. */
const AHEAD: ReadonlySet<string> = new Set<Kind>(['classes', 'fairs']);

/** A file by its path, with its outline. */
interface OutlinedFile {
  readonly kind: Kind | 'studio';
  readonly file: string;
  readonly days: FileDays;
  readonly outline: () => Outline;
}

/** A studio's records, typed, before any rule was run: all that is needed of its files from here on. */
export interface TakenIn {
  readonly draft: Draft;
  /** What is wrong with the files as files. */
  readonly unread: readonly Finding[];
  /** What is wrong with files in the wrong place, and in the records by themselves. */
  readonly faults: readonly Finding[];
  /** The files that have no faults of their own, whatever the rules say of their records. */
  readonly clean: readonly OutlinedFile[];
  /** The outlines of all files, of what is sound in them. */
  readonly outlines: readonly (() => Outline)[];
  /** The day from which on nothing is found or not found by the mere passing of time. */
  readonly settled: Day;
  /** A fingerprint of the settings; empty where there is none. */
  readonly settings: string;
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
export function takeIn(reading: ChangedReading): TakenIn {
  const draft = emptyDraft();
  const clean: OutlinedFile[] = [];
  const outlines: (() => Outline)[] = [];
  let settled = '';
  const note = (file: OutlinedFile, isClean: boolean): void => {
    outlines.push(file.outline);
    if (isClean) clean.push(file);
    const [, until = ''] = AHEAD.has(file.kind) ? [] : (file.days ?? []);
    if (until > settled) settled = until;
  };
  const faults = reading.files.flatMap((file) => {
    if ('typed' in file) {
      draft.files.push(file);
      note(file, true);
      return [];
    }
    if (file.known) {
      note(addKnown(draft, file, file.known), true);
      return [];
    }
    const checked = checkFile(file, reading.coreOf);
    note(addFile(draft, file, checked), checked.findings.length === 0);
    return checked.findings;
  });
  const { findings: unread, sheet, filedSheets = [], strays = [] } = reading;
  const sheets = [...(sheet ? [sheet] : []), ...filedSheets];
  const { taxSheet, papers } = draft.studio;
  const named = new Set([taxSheet, papers?.phrases, ...filedSheets.map(({ file }) => file)]);
  const stray = strayFiles(strays.filter(({ file }) => !named.has(file)));
  const files = strays.map(({ file }) => file);
  const inSheet = taxSheetFaults(draft.studio, { sheet, files });
  const all = [...stray, ...faults, ...inSheet];
  const { closedThrough = '', starts = '' } = draft.studio;
  for (const day of [closedThrough, starts]) if (day > settled) settled = day;
  const settings = reading.files.find(({ kind }) => kind === 'studio')?.content ?? '';
  const taken = { draft, unread, faults: all, clean, outlines, settled, settings };
  return { ...taken, sheet, sheets, strays: files };
}
