/** `saggar export DIR`: the whole book and all reports as tables for any other program, and as pages. */
import { relative, resolve, sep } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { KINDS } from '../../book.ts';
import { archive, encoded } from '../../export/archive.ts';
import { exportFiles, type ExportFile } from '../../export/files.ts';
import type { RecordIndex } from '../../export/records.ts';
import { textPlaces, textPages, type TextPage } from '../../export/texts.ts';
import type { Span } from '../../number/date.ts';
import { recordLines, type TextOf } from '../../read/place.ts';
import { flow } from '../../reckon/flow.ts';
import { footOf } from '../../render/html/foot.ts';
import { pageInPieces } from '../../render/html/page.ts';
import { writtenInPieces, writtenLines, type WrittenFile } from '../../render/html/written.ts';
import { printed, type Printable } from '../../render/printable.ts';
import { ofState, tableHead } from '../../report/head.ts';
import type { LineAddress } from '../../report/page.ts';
import type { TableHead } from '../../report/table.ts';
import { allRecordWords } from '../../report/record-words.ts';
import { refusedFile, whyNotNew, writeNewFile, writeNewFolder } from '../../write/folder.ts';
import type { AskedOf, CommandOf } from '../catalogue.ts';
import { endOf, exportReports, type PagedReport } from './export-reports.ts';
import { findInTime } from '../studio/find-studio.ts';
import { openFound, type OpenedBook } from '../studio/open.ts';
import { refuse, leftOutText } from './show.ts';
import { askedYear } from './span.ts';
import { EXIT, isRefusal, type Refusal, type World } from '../world.ts';

/** Writes a folder, a zip, or both: each whole, or nothing of it. */
export const exportBook: CommandOf<'export'> = async (asked, world) => {
  const goal = askedGoal(asked, world);
  if (isRefusal(goal)) return refuse(world, goal);
  const opened = await openFound(await findInTime(asked, world));
  if (isRefusal(opened)) return refuse(world, opened);
  const span = askedYear(asked.options, opened.book, opened.asOf);
  const refused =
    whyNotThere(opened.folder, goal) ??
    (isRefusal(span) ? span : await exported(goal, { opened, span }, world));
  if (refused) return refuse(world, refused);
  opened.save();
  if (opened.errors === 0) return EXIT.fine;
  world.complain(leftOutText(opened.errors));
  return EXIT.errors;
};

/** Where the export goes, as whole paths. */
interface Goal {
  readonly folder: string | undefined;
  /** An archive's file, or standard output. */
  readonly zip: string | undefined;
}

const STANDARD_OUTPUT = '-';

function askedGoal(
  { argument, options: { archive: zipped } }: AskedOf<'export'>,
  { folder: from, outputIsTerminal }: World,
): Goal | Refusal {
  const named = [argument, zipped];
  if (named.includes(STANDARD_OUTPUT))
    return outputIsTerminal === true
      ? { refused: 'a terminal can show no archive; write saggar export - > handover.zip' }
      : { folder: undefined, zip: STANDARD_OUTPUT };
  const [folder, zip] = named.map((path) =>
    path === undefined || path === '' ? undefined : resolve(from, path),
  );
  if (folder !== undefined || zip !== undefined) return { folder, zip };
  return { refused: 'say where to, as in saggar export handover, or --archive handover.zip' };
}

/**
 * Exports never lie among the records: a later check would take them for some. Whether anything is in
 * the way is looked at before the work, and again when it is written.
 */
function whyNotThere(studio: string, { folder, zip }: Goal): Refusal | undefined {
  if (zip === STANDARD_OUTPUT) return undefined;
  const inside = [folder, zip].find((path) => path !== undefined && isAmongRecords(studio, path));
  if (inside !== undefined)
    return { refused: `${inside} is among the studio's own records; give another name` };
  const whyNot = folder === undefined ? undefined : whyNotNew(folder);
  if (whyNot !== undefined) return { refused: `${folder ?? ''} ${whyNot}` };
  return zip === undefined ? undefined : refusedFile(zip);
}

function isAmongRecords(studio: string, path: string): boolean {
  const [first = ''] = relative(studio, path).split(sep);
  if (first === '..') return false;
  return first === '' || first.startsWith('.') || KINDS.some((kind) => kind === first);
}

async function exported(
  goal: Goal,
  { opened, span }: Pick<ExportMaterial, 'opened' | 'span'>,
  world: World,
): Promise<Refusal | undefined> {
  setFlagsFromString(SWEEP_SOON);
  flow(opened.book, opened.asOf);
  const reports = await exportReports(opened, span, (name) => {
    world.progress?.(printed`Making the report ${name}`);
  });
  if (isRefusal(reports)) return reports;
  const material = { opened, span, reports, ...(await allRecords(opened)) };
  return (await writeFolder(goal.folder, material, world)) ?? writeZip(goal.zip, material, world);
}

// Left to itself the heap grows to several times what is needed before it is swept: of ten years that is
// a fifth more memory, and sweeping sooner takes no more time.
const SWEEP_SOON = '--heap-growing-percent=20';

/** All that an export is made of. */
interface ExportMaterial {
  readonly opened: OpenedBook;
  readonly span: Span;
  readonly reports: readonly PagedReport[];
  readonly records: RecordIndex;
  readonly texts: readonly TextPage[];
  readonly placeOf: LineAddress;
}

/** Every record with its place, and where that can be read in the export. */
async function allRecords({
  book,
  textOf,
}: OpenedBook): Promise<Pick<ExportMaterial, 'records' | 'texts' | 'placeOf'>> {
  const words = allRecordWords(book).sort((a, b) => (a.id < b.id ? -1 : 1));
  const counts = new Map<string, number>();
  const counting: TextOf = (file) => {
    const text = textOf(file);
    if (text !== undefined) counts.set(file, writtenLines(text).length);
    return text;
  };
  const lines = await recordLines(counting, words);
  const records = new Map(
    words.map((record) => [record.id, { ...record, line: lines.get(record.id) }]),
  );
  const texts = textPages(records, book.studio);
  return { records, texts, placeOf: textPlaces(texts, counts) };
}

async function writeFolder(
  folder: string | undefined,
  material: ExportMaterial,
  world: World,
): Promise<Refusal | undefined> {
  if (folder === undefined) return undefined;
  const paths = new Set<string>();
  const files = told(filesOfFolder(material), paths, world);
  const { onExit, writer } = world;
  const refused = await writeNewFolder(folder, files, { uid: writer.uid, onExit });
  if (!refused) world.write(said(folder, paths.size, world), 'change');
  return refused;
}

/** The files of a commit are on no disk, so they come along. */
function* filesOfFolder(material: ExportMaterial): Generator<ExportFile> {
  yield* exportedFiles(material);
  if (material.opened.commit) yield* bookFiles(material);
}

/** Says of each file that it is being made, and notes its path. */
function* told(
  files: Iterable<ExportFile>,
  paths: Set<string>,
  { progress }: World,
): Generator<ExportFile> {
  for (const file of files) {
    progress?.(printed`Writing ${file[0]}`);
    paths.add(file[0]);
    yield file;
  }
}

/** A zip goes to others, so the book's own files are in it. */
async function writeZip(
  zip: string | undefined,
  material: ExportMaterial,
  world: World,
): Promise<Refusal | undefined> {
  if (zip === undefined) return undefined;
  const files = new Map<string, Uint8Array>();
  const all = [exportedFiles(material), bookFiles(material)];
  for (const some of all)
    for (const [path, text] of told(some, new Set(), world)) files.set(path, encoded(text));
  world.progress?.(printed`Packing ${zip === STANDARD_OUTPUT ? 'the archive' : zip}`);
  if (zip === STANDARD_OUTPUT) {
    world.writeBytes?.(archive(files));
    return undefined;
  }
  const { onExit, writer } = world;
  const refused = await writeNewFile(zip, archive(files), { uid: writer.uid, onExit });
  if (!refused) world.write(said(zip, files.size, world), 'change');
  return refused;
}

function* bookFiles({ opened: { textOf }, texts }: ExportMaterial): Generator<ExportFile> {
  for (const file of texts.flatMap(({ files }) => files).sort()) {
    const text = textOf(file);
    if (text !== undefined) yield [`book/${file}`, text];
  }
}

function exportedFiles(material: ExportMaterial): Generator<ExportFile> {
  const { opened, span, reports, records, texts } = material;
  const { book, asOf, errors, commit: revision } = opened;
  const days = { ...span, end: endOf(span, asOf) };
  const about = { reports, records, texts, days, errors, revision };
  const foot = footOf(bookHead(opened));
  return exportFiles(book, asOf, { ...about, pages: pagesOf(material, foot), foot });
}

function bookHead({ book, asOf, commit, digest }: OpenedBook): TableHead {
  return { ...tableHead(book, asOf), revision: commit, digest };
}

/** One by one, so that never more than one of them is held. */
function* pagesOf(
  { opened, reports, records, texts, placeOf }: ExportMaterial,
  foot: string,
): Generator<ExportFile> {
  const { textOf, book } = opened;
  const up = { to: '../index.html', words: `All records and reports of ${book.studio.name}` };
  for (const { name, table, charts } of reports) {
    const page = { tables: [ofState(table, opened)], charts, records, placeOf, up } as const;
    yield [`pages/${name}.html`, pageInPieces(page)];
  }
  for (const { path, title, about, files } of texts) {
    const written = { title, caption: about, footer: foot, up, files: textsOf(files, textOf) };
    yield [path, writtenInPieces(written)];
  }
}

function* textsOf(files: readonly string[], textOf: TextOf): Generator<WrittenFile> {
  for (const file of files) yield { file, text: textOf(file) ?? '' };
}

function said(path: string, files: number, { folder }: World): Printable {
  const shown = relative(folder, path);
  const where = shown.startsWith('..') ? path : shown;
  return printed`${where}: ${files} files; begin with index.html\n`;
}
