/** The whole check, without disk: raw files to the book of all that is sound, and what is wrong. */
import type { Book } from '../book.ts';
import type { Finding } from '../problem.ts';
import type { CoreFile } from '../read/core.ts';
import type { RawFile } from '../read/raw.ts';
import { addFile, emptyDraft, finishBook } from './draft.ts';
import { runRules } from './rules.ts';
import { duplicateIds } from './rules/duplicate-id.ts';
import { strayFiles, type StrayFile } from './rules/stray-file.ts';
import { checkFile, type CheckedFile } from './schema.ts';
import { unsoundIn } from './unsound.ts';

/** A raw file; a clean one was found without faults before, and has not changed since. */
export type FileToCheck = RawFile & { readonly clean?: boolean };

/** What reading a studio gives: its files, and what was wrong with them as files. */
export interface Reading {
  readonly files: readonly FileToCheck[];
  readonly findings: readonly Finding[];
  readonly strays?: readonly StrayFile[];
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

/**
 * Checks all of a studio as of a day (ISO): schemas, ids, then the rules. Records with faults of
 * their own are left out of the book; of two records with one id, the first one is in it. Settings
 * with faults are left out one by one, and the book of a studio without any has none but empty names.
 * `prepare` is given the book before the rules are run, so that they find what it reckons.
 */
export function checkStudio(
  reading: Reading,
  day: string,
  prepare?: (book: Book) => void,
): Checked {
  const draft = emptyDraft();
  const clean: string[] = [];
  const faults = reading.files.flatMap((file) => {
    const checked = file.clean ? withoutFaults(file) : checkFile(file, reading.coreOf);
    addFile(draft, file, checked);
    if (checked.findings.length === 0) clean.push(file.file);
    return checked.findings;
  });
  const book = finishBook(draft);
  prepare?.(book);
  const unsound = unsoundIn(draft.unsound, reading.findings);
  const findings = [
    ...reading.findings,
    ...strayFiles(reading.strays ?? []),
    ...faults,
    ...duplicateIds(draft.named),
    ...runRules(book, day, unsound),
  ];
  return { book, findings, clean };
}

function withoutFaults({ root }: RawFile): CheckedFile {
  return { findings: [], sound: root };
}
