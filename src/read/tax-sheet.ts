/** Reads a tax sheet of the studio's own: a YAML or JSON file in its folder, with the reader of all files. */
import { existsSync, readdirSync, realpathSync, type Dirent } from 'node:fs';
import { sep } from 'node:path';
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import { TAX_SHEET_TITLES } from '../../schema/generated/tax-sheet-titles.js';
import { attempt } from '../attempt.ts';
import type { Finding } from '../problem.ts';
import { readSource, unreadable } from './disk.ts';
import { SETTINGS_FILE, kindOfPath } from './kinds.ts';
import { isMap, type Raw, type RawFile, type RawMap } from './raw.ts';
import { mostIn } from './records.ts';
import { scan } from './yaml/scan.ts';

/** A sheet's file: what stands in it, or why it can't be read. */
export type OwnSheet = { readonly file: string } & (
  { readonly content: SheetContent } | { readonly unread: UnreadSheet }
);

/** Every scalar is the text that stands in the file. */
export interface SheetContent {
  readonly root: RawMap;
  readonly text: string;
}

/** Why a sheet can't be read. */
interface UnreadSheet {
  readonly findings: readonly Finding[];
  /** Whether the studio has the file at all. */
  readonly isThere: boolean;
}

/** Where the texts of sheets come from: the one of a file by its path from the studio's root. */
export type SheetText = (file: string) => Promise<string | UnreadSheet>;

/** The sheets on the disk; what lies outside the studio is not read. */
export function sheetsOnDisk(studioDir: string): SheetText {
  return (file) => {
    if (!isInside(studioDir, file)) return Promise.resolve(outsideSheet(file));
    if (!existsSync(`${studioDir}/${file}`)) return Promise.resolve(missingSheet(file));
    const source = readSource(studioDir, file);
    return Promise.resolve('text' in source ? source.text : unreadSheet(source));
  };
}

/** Reads a sheet's file. Never throws. */
export async function readSheet(file: string, textOf: SheetText): Promise<OwnSheet> {
  const text = await textOf(file);
  if (typeof text !== 'string') return { file, unread: text };
  const options = { numberKeys: NUMBER_KEYS, most: mostIn(file) };
  const scanned = scan(text, options);
  if (scanned) return { file, content: { root: scanned.root, text } };
  const { parseText } = await import('./yaml/parse.ts');
  const { root, findings } = parseText({ file, text }, options);
  if (findings.length > 0) return { file, unread: { findings, isThere: true } };
  return { file, content: { root, text } };
}

/** The sheet that the settings name, read; undefined where they name none, or one of the program's. */
export async function sheetInSettings(
  settings: RawMap | undefined,
  textOf: SheetText,
): Promise<OwnSheet | undefined> {
  const named: Raw | undefined = settings?.['tax-sheet'];
  return typeof named === 'string' && isSheetFile(named) ? readSheet(named, textOf) : undefined;
}

/** The sheets of the studio's own that filings name, each read once. */
export function sheetsFiled(
  files: readonly Pick<RawFile, 'kind' | 'root'>[],
  textOf: SheetText,
): Promise<OwnSheet[]> {
  const filings = files
    .filter(({ kind }) => kind === 'filed')
    .flatMap(({ root }) => Object.values(root));
  const named = filings.flatMap((filing) => (isMap(filing) ? (filing['sheet'] ?? []) : []));
  const own = new Set(named.filter((name) => typeof name === 'string' && isSheetFile(name)));
  return Promise.all([...own].map((name) => readSheet(name as string, textOf)));
}

/** A file that is there and can't be read. */
export function unreadSheet(finding: Finding): UnreadSheet {
  return { findings: [finding], isThere: true };
}

/** A file that the studio does not have. */
export function missingSheet(file: string): UnreadSheet {
  const words = {
    message: 'there is no such file in the studio',
    hint: "name it from the studio's folder, such as sheets/own.yaml",
  };
  return { findings: [unreadable(file, words)], isThere: false };
}

/** A file that the studio must not have. */
export function outsideSheet(file: string): UnreadSheet {
  const words = {
    message: 'it lies outside the studio, and is not read',
    hint: "put the sheet into the studio's folder, and name it from there",
  };
  return { findings: [unreadable(file, words)], isThere: false };
}

function isInside(studioDir: string, file: string): boolean {
  if (leadsUpwards(file)) return false;
  try {
    const root = realpathSync(studioDir);
    return realpathSync(`${studioDir}/${file}`).startsWith(root.endsWith(sep) ? root : root + sep);
  } catch {
    return true;
  }
}

/** Tells whether a tax sheet is a file of the studio's. */
const ENDING = /\.(?:ya?ml|json)$/i;
const UPWARDS = /^[/\\]|^[A-Za-z]:|(?:^|[/\\])\.\.(?:[/\\]|$)/;

/** Whether a name is that of a file, and not the id of a sheet that comes with the program. */
export function isSheetFile(name: string): boolean {
  return ENDING.test(name) || name.includes('/');
}

/** Whether a path doesn't stay below the folder that it is named from. */
export function leadsUpwards(path: string): boolean {
  return UPWARDS.test(path);
}

/**
 * Paths from the studio's root of the YAML and JSON files outside the folders of records that have a
 * word in them, in their order. Folders whose name begins with a dot and `node_modules` are passed
 * over, and links are not followed.
 */
export function sheetFiles(studioDir: string, word: string): string[] {
  return filesBelow(studioDir, '').filter((file) => {
    const source = readSource(studioDir, file);
    return 'text' in source && source.text.includes(word);
  });
}

function filesBelow(studioDir: string, folder: string): string[] {
  return entriesOf(`${studioDir}/${folder}`).flatMap((entry) => {
    const { name } = entry;
    const path = `${folder}${name}`;
    if (name.startsWith('.') || name === 'node_modules' || kindOfPath(path)) return [];
    if (entry.isDirectory()) return filesBelow(studioDir, `${path}/`);
    return entry.isFile() && isSheetFile(name) && path !== SETTINGS_FILE ? [path] : [];
  });
}

function entriesOf(folder: string): Dirent[] {
  const entries = attempt(() => readdirSync(folder, { withFileTypes: true })) ?? [];
  return entries.sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** Sheets that are there for several years, one for each: the name stands for the one of the year. */
export const SHEET_FAMILIES: readonly string[] = ['us-schedule-c', 'uk-sa103s'];

/** Every name that a sheet of the program goes by, those of all years first. */
export const BUILT_IN_SHEETS: readonly string[] = [
  ...SHEET_FAMILIES,
  ...Object.keys(TAX_SHEET_TITLES),
];
