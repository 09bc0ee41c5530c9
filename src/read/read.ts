/** Reads a studio: which files there are, what is in them, and what could not be read. */
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import type { Kind } from '../book.ts';
import { digestOf } from '../digest.ts';
import { madeOnce } from '../once.ts';
import type { Finding } from '../problem.ts';
import { coreFile, type CoreFile, type ReadOptions } from './yaml/core.ts';
import { readSource, type Source } from './disk.ts';
import {
  STUDIO_FOLDER,
  listFiles,
  type ListedFile,
  type Stray,
  type StudioListing,
} from './find.ts';
import { NO_STAMP, type Keepable, type Recalled } from './kept/kept-files.ts';
import { type Memory } from './kept/memory.ts';
import type { FileDays, Outline } from './kept/outline.ts';
import type { parseText } from './yaml/parse.ts';
import type { RawFile, RawMap } from './raw.ts';
import { mostIn } from './records.ts';
import { scan, type Scanned } from './yaml/scan.ts';
import {
  sheetInSettings,
  sheetsFiled,
  sheetsOnDisk,
  type OwnSheet,
  type SheetText,
} from './tax-sheet.ts';

/** How a studio is to be read. */
export interface StudioOptions {
  /** What is remembered of it, and is to be. */
  readonly memory: Memory;
  /** Only these kinds and the settings; all when left out. */
  readonly kinds?: readonly Kind[];
  readonly told?: ReadingTold;
}

/** Is told of each file that is read anew. */
export type ReadingTold = (file: string) => void;

/** A file of the studio. */
export interface ReadFile extends RawFile {
  /** A fingerprint of its text. */
  readonly content: string;
  /** What is known of it where it is as it was when a check last found it clean. */
  readonly known?: Recalled;
}

/** A file that is another now than it was read. */
export type EditedFile = RawFile & { readonly content: string };

/** A file that a check found clean. */
export interface CleanFile {
  readonly file: string;
  readonly days: FileDays;
  readonly outline: () => Outline;
}

/** What is in a studio's files. */
export interface StudioReading {
  /** In the order of their paths. */
  readonly files: readonly ReadFile[];
  /** What could not be read: `unreadable-file`, `yaml-error`, `duplicate-id`. */
  readonly findings: readonly Finding[];
  readonly strays: readonly Stray[];
  /** The tax sheet that the settings name, where it is a file of the studio's own. */
  readonly sheet: OwnSheet | undefined;
  /** Those that filings name. */
  readonly filedSheets: readonly OwnSheet[];
  /** A file as a YAML 1.2 core reader sees it: of the text that was read, without another look. */
  readonly coreOf: (file: string) => CoreFile | undefined;
  /**
   * Notes what was read of the files that a check found clean for the next time. Files with findings
   * of their own must not be among them. Some may have been edited since.
   */
  readonly remember: (clean: readonly CleanFile[], edited?: readonly EditedFile[]) => void;
  readonly memory: Memory;
}

/** Why there is nothing to read. */
export interface Unread {
  readonly refused: string;
}

/**
 * Reads a studio's files. One bad file never hides the next: what is sound in each is given, the rest
 * is in the findings. Refuses only when the studio's own folder can't be read.
 */
export async function readStudio(
  studioDir: string,
  { memory, kinds, told }: StudioOptions,
): Promise<StudioReading | Unread> {
  const listing = listFiles(studioDir, kinds);
  const blocked = listing.findings.find(({ at }) => at.file === STUDIO_FOLDER);
  if (blocked) return { refused: `the folder ${studioDir} can't be read: ${blocked.message}` };
  return readShelf({
    listing,
    memory,
    sourceOf: (file) => readSource(studioDir, file),
    sheetText: sheetsOnDisk(studioDir),
    told,
  });
}

/** Files that can be read, wherever their texts come from. */
interface Shelf {
  readonly listing: StudioListing;
  readonly memory: Memory;
  /** The text of a file, or why there is none. */
  readonly sourceOf: (file: string) => Source | Finding;
  readonly sheetText: SheetText;
  readonly told?: ReadingTold | undefined;
}

/** Reads the files of a shelf, each as `readStudio` does. */
export async function readShelf(shelf: Shelf): Promise<StudioReading> {
  const { listing, memory } = shelf;
  const recalled = listing.files.map(memory.recall);
  if (recalled.includes(undefined)) memory.begin();
  const taken = listing.files.map((listed, index) => {
    const kept = recalled[index];
    return kept ? { listed, kept, findings: [] } : take(listed, shelf);
  });
  const parse = taken.some(isUnread) ? (await import('./yaml/parse.ts')).parseText : undefined;
  const read = taken.map((file) => parsed(file, parse));
  const sheet = await sheetInSettings(settingsIn(read), shelf.sheetText);
  const files = read.flatMap(asFile);
  const filedSheets = await sheetsFiled(files, shelf.sheetText);
  return asReading(shelf, read, { files, parse, sheet, filedSheets });
}

function optionsFor(file: string): ReadOptions {
  return { numberKeys: NUMBER_KEYS, most: mostIn(file) };
}

/** The full reader, where any file needed it. */
type ParseText = typeof parseText | undefined;

/** How far one file was read. */
interface TakenText {
  readonly listed: ListedFile;
  /** Its content from the cache. */
  readonly kept?: Recalled;
  /** Its text, where it had to be read. */
  readonly source?: Source;
  /** What the readers made of the text. */
  readonly content?: Scanned;
  readonly findings: readonly Finding[];
}

function take(listed: ListedFile, { sourceOf, told }: Shelf): TakenText {
  told?.(listed.file);
  const source = sourceOf(listed.file);
  if (!('text' in source)) return { listed, findings: [source] };
  const content = scan(source.text, optionsFor(listed.file));
  return content ? { listed, source, content, findings: [] } : { listed, source, findings: [] };
}

function isUnread({ source, content }: TakenText): boolean {
  return source !== undefined && content === undefined;
}

function parsed(taken: TakenText, parse: ParseText): TakenText {
  const { listed, source } = taken;
  if (!parse || !source || !isUnread(taken)) return taken;
  const { root, odd, findings } = parse(
    { file: listed.file, text: source.text },
    optionsFor(listed.file),
  );
  return { listed, source, content: { root, odd }, findings };
}

function settingsIn(taken: readonly TakenText[]): RawMap | undefined {
  const settings = taken.find(({ listed }) => listed.kind === 'studio');
  return settings?.kept?.root ?? settings?.content?.root;
}

interface Means {
  readonly files: readonly ReadFile[];
  readonly parse: ParseText;
  readonly sheet: OwnSheet | undefined;
  readonly filedSheets: readonly OwnSheet[];
}

function asReading(shelf: Shelf, taken: readonly TakenText[], means: Means): StudioReading {
  const { listing, memory } = shelf;
  const { files, parse, sheet, filedSheets } = means;
  const byFile = madeOnce(() => new Map(taken.map((each) => [each.listed.file, each])));
  return {
    files,
    findings: [...listing.findings, ...taken.flatMap(({ findings }) => findings)],
    strays: listing.strays,
    sheet,
    filedSheets,
    coreOf: (file) => coreOf(byFile().get(file), parse),
    remember: (clean, edited = []) => {
      const now = new Map(edited.map((file) => [file.file, file]));
      memory.keep(
        clean.flatMap((file) => {
          const { days, outline } = file;
          const raw = now.get(file.file);
          return raw
            ? [{ ...raw, days, outline, stamp: NO_STAMP }]
            : asKeepable(byFile().get(file.file), file);
        }),
      );
    },
    memory,
  };
}

function asFile({ listed, kept, source, content }: TakenText): ReadFile[] {
  const { file, kind } = listed;
  if (kept) return [kept];
  return source && content ? [{ file, kind, ...content, content: contentOf(source) }] : [];
}

function asKeepable(taken: TakenText | undefined, { days, outline }: CleanFile): Keepable[] {
  if (taken?.kept) return [taken.kept];
  if (!taken?.source || !taken.content || taken.listed.linked || taken.findings.length > 0)
    return [];
  const { file, kind } = taken.listed;
  const { stamp } = taken.source;
  return [{ file, kind, ...taken.content, stamp, days, outline, content: contentOf(taken.source) }];
}

function coreOf(taken: TakenText | undefined, parse: ParseText): CoreFile | undefined {
  if (!taken?.source) return undefined;
  const { text } = taken.source;
  const options = { ...optionsFor(taken.listed.file), marks: true };
  const marked = scan(text, options) ?? parse?.({ file: taken.listed.file, text }, options);
  return marked && coreFile(marked.root, text);
}

/** A fingerprint of a text. */
export function contentOf({ text }: Pick<Source, 'text'>): string {
  return digestOf(text).slice(0, 32);
}
