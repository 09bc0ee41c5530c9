/** Reads and checks the texts of a studio without a disk, by the yaml package alone. */
import { KINDS, type Book, type Kind, type Studio } from '../../src/book.ts';
import { runRules } from '../../src/check/rules.ts';
import { checkFile } from '../../src/check/schema.ts';
import { typeRecord, typeStudio } from '../../src/check/typed.ts';
import type { Finding } from '../../src/problem.ts';
import type { RawFile, RawMap } from '../../src/read/raw.ts';
import { coreView, rawFile } from './file-views.ts';

/** Path from the studio's root → text of the file. */
export type Files = Readonly<Record<string, string>>;

export interface CheckedFiles {
  readonly book: Book;
  /** Of every file, then of all rules over the book. */
  readonly findings: readonly Finding[];
}

/** The book that the files make, and what is wrong in it on a day. */
export function checkFiles(files: Files, asOf: string): CheckedFiles {
  const maps = Object.fromEntries(KINDS.map((kind) => [kind, new Map<string, unknown>()]));
  let studio: Studio | undefined;
  const findings: Finding[] = [];
  for (const [path, text] of Object.entries(files)) {
    const checked = checkFile(rawFile(kindOf(path), text, path), () => coreView(text));
    findings.push(...checked.findings);
    if (path === 'studio.yaml') studio = typeStudio(checked.sound, path);
    else addRecords(maps, { path, root: checked.sound });
  }
  const book = { studio, ...maps } as unknown as Book;
  return { book, findings: [...findings, ...runRules(book, asOf)] };
}

function addRecords(
  maps: Readonly<Record<string, Map<string, unknown>>>,
  { path, root }: { path: string; root: RawMap },
): void {
  const kind = kindOf(path) as Kind;
  for (const [id, record] of Object.entries(root))
    maps[kind]?.set(id, typeRecord(kind, record as RawMap, { id, file: path }));
}

/** The first folder's name, or the file's: `sales/2026/03.yaml`, `sales.yaml`. */
function kindOf(path: string): RawFile['kind'] {
  return path.replace(/(?:\/.*|\.yaml)$/, '') as RawFile['kind'];
}
