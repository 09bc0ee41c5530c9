/** Reads a tax sheet of the studio's own: a YAML or JSON file in its folder, with the reader of all files. */
import { existsSync, realpathSync } from 'node:fs';
import { sep } from 'node:path';
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import type { Finding } from '../problem.ts';
import { isMap } from './at-path.ts';
import { readSource, unreadable } from './disk.ts';
import type { Raw, RawFile, RawMap } from './raw.ts';
import { mostIn } from './records.ts';
import { scan } from './scan.ts';
import { isSheetFile, leadsUpwards } from './sheet-state.ts';

/** A sheet's file: what stands in it, or why it can't be read. */
export type OwnSheet = { readonly file: string } & (
  { readonly content: SheetContent } | { readonly unread: Unread }
);

/** Every scalar is the text that stands in the file. */
export interface SheetContent {
  readonly root: RawMap;
  readonly text: string;
}

/** Why a sheet can't be read. */
export interface Unread {
  readonly findings: readonly Finding[];
  /** Whether the studio has the file at all. */
  readonly isThere: boolean;
}

/** Where the texts of sheets come from: the one of a file by its path from the studio's root. */
export type SheetText = (file: string) => Promise<string | Unread>;

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
  const { parseText } = await import('./parse.ts');
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
  const filings = files.filter(({ kind }) => kind === 'filed').flatMap(({ root }) => values(root));
  const named = filings.flatMap((filing) => (isMap(filing) ? (filing['sheet'] ?? []) : []));
  const own = new Set(named.filter((name) => typeof name === 'string' && isSheetFile(name)));
  return Promise.all([...own].map((name) => readSheet(name as string, textOf)));
}

function values(root: RawMap): readonly Raw[] {
  return Object.values(root);
}

/** A file that is there and can't be read. */
export function unreadSheet(finding: Finding): Unread {
  return { findings: [finding], isThere: true };
}

/** A file that the studio does not have. */
export function missingSheet(file: string): Unread {
  const words = {
    message: 'there is no such file in the studio',
    hint: "name it from the studio's folder, such as sheets/own.yaml",
  };
  return { findings: [unreadable(file, words)], isThere: false };
}

/** A file that the studio must not have. */
export function outsideSheet(file: string): Unread {
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
