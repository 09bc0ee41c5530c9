/** The studio's files in an export, as pages to read: those of a kind together, on several pages where they are many. */
import { capitalised } from '../in-words.ts';
import { DESCRIPTIONS } from '../../schema/generated/descriptions.js';
import type { Book, Kind } from '../book.ts';
import { grouped } from '../grouping.ts';
import { writtenId } from '../render/html/written.ts';
import type { LineAddress } from '../report/page.ts';
import type { RecordIndex } from './records.ts';

/** A page of files. */
export interface TextPage {
  /** Path in the export. */
  readonly path: string;
  readonly title: string;
  /** What is in the files, in a sentence. */
  readonly about: string;
  readonly files: readonly string[];
}

/** A file, and how many records it has. */
interface SizedFile {
  readonly file: string;
  readonly records: number;
}

/** So many records are well read on one page. */
const MOST_RECORDS = 1000;

/** The pages of all files that have records, in the order of their paths, and of the settings. */
export function textPages(
  records: RecordIndex,
  { file: settings }: Book['studio'],
): readonly TextPage[] {
  const byFile = grouped(records.values(), ({ file }) => file);
  const files = [...byFile].map(([file, own]) => ({ file, records: own.length }));
  files.sort((a, b) => (a.file < b.file ? -1 : 1));
  const kinds = grouped([...files, { file: settings, records: 1 }], kindOfFile);
  return [...kinds].flatMap(([kind, own]) => pagesOfKind(kind, own));
}

/** `KIND.yaml`, or any file below `KIND/`. */
function kindOfFile({ file }: SizedFile): Kind | 'studio' {
  const [kind = ''] = file.split(/[/.]/);
  return kind as Kind | 'studio';
}

function pagesOfKind(kind: Kind | 'studio', files: readonly SizedFile[]): TextPage[] {
  const parts: SizedFile[][] = [];
  let room = 0;
  for (const file of files) {
    room -= file.records;
    if (room < 0) {
      parts.push([]);
      room = MOST_RECORDS - file.records;
    }
    parts.at(-1)?.push(file);
  }
  const title = kind === 'studio' ? 'Settings' : capitalised(kind);
  const isOne = parts.length === 1;
  const digits = String(parts.length).length;
  return parts.map((part, at) => ({
    path: `book/${kind}${isOne ? '' : `-${String(at + 1).padStart(digits, '0')}`}.html`,
    title: isOne ? title : `${title}, ${firstToLast(part)}`,
    about: DESCRIPTIONS[kind][''] ?? '',
    files: part.map(({ file }) => file),
  }));
}

/** The first file and the last, by their names: `2025-01 to 2025-06`. */
function firstToLast(files: readonly SizedFile[]): string {
  const names = files.map(({ file }) => file.replace(/^.*\/|\.yaml$/g, ''));
  const [first = '', last = first] = [names[0], names.at(-1)];
  return first === last ? first : `${first} to ${last}`;
}

/** Where each line of the files stands, from a page in a folder beside them, by how many lines each has. */
export function textPlaces(
  pages: readonly TextPage[],
  lines: ReadonlyMap<string, number>,
): LineAddress {
  const places = new Map<string, { path: string; number: number; above: number }>();
  for (const { path, files } of pages) {
    let above = 0;
    for (const [at, file] of files.entries()) {
      places.set(file, { path, number: at + 1, above });
      above += lines.get(file) ?? 0;
    }
  }
  return (file, line) => {
    const { path = '', number = 0, above = 0 } = places.get(file) ?? {};
    const id = line === undefined ? writtenId('file', number) : writtenId('line', above + line);
    return `../${path}#${id}`;
  };
}
