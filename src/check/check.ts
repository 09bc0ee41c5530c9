/** The whole check, without disk: raw files to the book of all that is sound, and what is wrong. */
import type { Book } from '../book.ts';
import type { Finding } from '../problem.ts';
import type { CoreFile } from '../read/core.ts';
import type { RawFile } from '../read/raw.ts';
import { addFile, emptyDraft, finishBook } from './draft.ts';
import { runRules } from './rules.ts';
import { duplicateIds } from './rules/duplicate-id.ts';
import { strayFiles, type StrayFile } from './rules/stray-file.ts';
import { checkFile } from './schema.ts';
import { unsoundIn } from './unsound.ts';

/** What reading a studio gives: its files, and what was wrong with them as files. */
export interface Reading {
  readonly files: readonly RawFile[];
  readonly findings: readonly Finding[];
  readonly strays?: readonly StrayFile[];
  /** A file as a YAML 1.2 core reader sees it; asked only for files that may have faults. */
  readonly coreOf: (file: string) => CoreFile | undefined;
}

/** The book, and everything that is wrong with it; the findings are in no particular order. */
export interface Checked {
  readonly book: Book;
  readonly findings: readonly Finding[];
}

/**
 * Checks all of a studio as of a day (ISO): schemas, ids, then the rules. Records with faults of
 * their own are left out of the book; of two records with one id, the first one is in it. Settings
 * with faults are left out one by one, and the book of a studio without any has none but empty names.
 */
export function checkStudio(reading: Reading, day: string): Checked {
  const draft = emptyDraft();
  const faults = reading.files.flatMap((file) => {
    const checked = checkFile(file, reading.coreOf);
    addFile(draft, file, checked);
    return checked.findings;
  });
  const book = finishBook(draft);
  const unsound = unsoundIn(draft.unsound, reading.findings);
  const findings = [
    ...reading.findings,
    ...strayFiles(reading.strays ?? []),
    ...faults,
    ...duplicateIds(draft.named),
    ...runRules(book, day, unsound),
  ];
  return { book, findings };
}
