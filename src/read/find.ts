/** Finds the studio and the files in it that hold records; what is in the files is not looked at. */
import { existsSync, readdirSync, realpathSync, statSync, type Dirent } from 'node:fs';
import { dirname, resolve, sep } from 'node:path';
import { attempt } from '../attempt.ts';
import type { Kind } from '../book.ts';
import type { Finding } from '../problem.ts';
import { compareTexts } from '../text-order.ts';
import { isSettled, readSource, stampOf, unreadable, whyUnreadable } from './disk.ts';
import {
  ADDRESS_FILE,
  SETTINGS_FILE,
  isYamlName,
  kindOf,
  kindOfPath,
  likelyPath,
} from './kinds.ts';
import { isDoubtful, oddNameWords, oddNames } from './odd-names.ts';

/** What findings call the studio's own folder. */
export const STUDIO_FOLDER = '.';

/** A file that holds records, or the settings. */
export interface ListedFile {
  /** Path from the studio's root, with forward slashes. */
  readonly file: string;
  readonly kind: Kind | 'studio';
  /** Whether the file itself is a link to another one in the studio. */
  readonly linked: boolean;
}

/** A YAML file that belongs to no kind, and where it may be meant to be. */
export interface Stray {
  readonly file: string;
  readonly suggestion?: string;
}

/** What stands in a studio's folder; each list in the order of the paths. */
export interface StudioListing {
  readonly files: readonly ListedFile[];
  readonly strays: readonly Stray[];
  /** Folders and links that could not be followed: `unreadable-file`. */
  readonly findings: readonly Finding[];
}

/** The nearest folder upwards from a folder, itself included, that has `studio.yaml`. */
export function findStudio(startDir: string): string | undefined {
  const dir = resolve(startDir);
  if (existsSync(`${dir}/${SETTINGS_FILE}`)) return dir;
  const above = dirname(dir);
  return above === dir ? undefined : findStudio(above);
}

/**
 * Lists the files of a studio. With `kinds` only the settings and the files of those kinds are looked
 * for, and nothing is said of strays. Folders whose name begins with a dot and `node_modules` are
 * passed over; a link is followed unless it leads out of the studio, in a circle, or to what is
 * listed already.
 */
export function listFiles(studioDir: string, kinds?: readonly Kind[]): StudioListing {
  const search = newSearch(studioDir, kinds);
  walk(search, { path: '', real: search.realRoot });
  // Links come last, so that what can be reached without one is listed under its own path.
  const { files, links, realRoot } = search;
  if (links.length > 0) search.listed = new Set(files.map(({ file }) => `${realRoot}/${file}`));
  for (const link of links) followLink(search, link);
  const strays = search.strays.filter(({ real }) => !search.listed?.has(real));
  return {
    files: files.sort((a, b) => compareTexts(a.file, b.file)),
    strays: kinds
      ? []
      : strays
          .map(({ path }) => path)
          .sort(compareTexts)
          .map(asStray),
    findings: search.findings,
  };
}

/** A file or folder as it is named in the studio, and without links. */
interface Way {
  readonly path: string;
  readonly real: string;
}

interface Search {
  readonly root: string;
  readonly realRoot: string;
  readonly kinds: readonly Kind[] | undefined;
  readonly files: ListedFile[];
  readonly strays: Way[];
  readonly findings: Finding[];
  /** Links that are still to be followed; the list grows while it is gone through. */
  readonly links: Way[];
  /** Real paths of the files listed and of the folders that links led to, from the first link on. */
  listed: Set<string> | undefined;
}

function newSearch(root: string, kinds: readonly Kind[] | undefined): Search {
  const lists = { files: [], strays: [], findings: [], links: [], listed: undefined };
  return {
    root,
    realRoot: slashed(attempt(() => realpathSync(root)) ?? resolve(root)),
    kinds,
    ...lists,
  };
}

function slashed(path: string): string {
  return sep === '/' ? path : path.replaceAll(sep, '/');
}

function walk(search: Search, dir: Way): void {
  const entries = entriesOf(search, dir);
  const isOdd = entries.some(({ name }) => isDoubtful(name));
  const odd = isOdd ? reportOdd(search, dir, entries) : undefined;
  for (const entry of entries) {
    const { name } = entry;
    if (odd?.has(name)) continue;
    const path = dir.path === '' ? name : `${dir.path}/${name}`;
    if (isPassedOver(name) || path === ADDRESS_FILE || !isWanted(search, path)) continue;
    const way = { path, real: `${dir.real}/${name}` };
    if (entry.isDirectory()) walk(search, way);
    else if (entry.isSymbolicLink()) search.links.push(way);
    else if (isYamlName(name)) list(search, way, false);
  }
}

/** Says what can't be read for its name, by which the system finds nothing; gives those names. */
function reportOdd(search: Search, dir: Way, entries: readonly Dirent[]): ReadonlySet<string> {
  const odd = oddNames(`${search.root}/${dir.path}`);
  const files = new Set(entries.filter((entry) => entry.isFile()).map(({ name }) => name));
  for (const { given, shown } of odd) {
    const path = dir.path === '' ? shown : `${dir.path}/${shown}`;
    const isRead = isYamlName(shown) || !files.has(given);
    if (isRead && !isPassedOver(shown) && isWanted(search, path))
      report(search, { path, real: '' }, oddNameWords(shown));
  }
  return new Set(odd.map(({ given }) => given));
}

// The order of the disk must not show.
function entriesOf(search: Search, { path }: Way): Dirent[] {
  try {
    const entries = readdirSync(`${search.root}/${path}`, { withFileTypes: true });
    return entries.sort((a, b) => compareTexts(a.name, b.name));
  } catch (error) {
    search.findings.push(unreadable(path === '' ? STUDIO_FOLDER : path, whyUnreadable(error)));
    return [];
  }
}

/** Whether a file or folder of that name is never looked at. */
export function isPassedOver(name: string): boolean {
  return name.startsWith('.') || name === 'node_modules';
}

function isWanted({ kinds }: Search, path: string): boolean {
  if (kinds === undefined || path === SETTINGS_FILE) return true;
  const kind = kindOfPath(path);
  return kind !== undefined && kinds.includes(kind);
}

function list(search: Search, way: Way, linked: boolean): void {
  if (search.listed?.has(way.real)) return;
  const kind = kindOf(way.path);
  if (kind === undefined) {
    search.strays.push(way);
    return;
  }
  search.listed?.add(way.real);
  search.files.push({ file: way.path, kind, linked });
}

function followLink(search: Search, link: Way): void {
  try {
    const real = slashed(realpathSync(`${search.root}/${link.path}`));
    const isFolder = statSync(real).isDirectory();
    if (!isFolder && !isYamlName(link.path)) return;
    if (!contains(search.realRoot, real)) report(search, link, OUTSIDE);
    else if (!isFolder) list(search, { path: link.path, real }, true);
    else if (contains(real, link.real)) report(search, link, CIRCLE);
    else followFolder(search, { path: link.path, real });
  } catch (error) {
    if (isYamlName(link.path)) report(search, link, whyUnreadable(error));
  }
}

function followFolder(search: Search, folder: Way): void {
  if (search.listed?.has(folder.real)) return;
  search.listed?.add(folder.real);
  walk(search, folder);
}

function contains(folder: string, path: string): boolean {
  return path === folder || path.startsWith(folder.endsWith('/') ? folder : `${folder}/`);
}

const OUTSIDE = {
  message: 'it is a link that leads out of the studio, and is not followed',
  hint: 'move what it leads to into the studio',
};
const CIRCLE = {
  message: 'it is a link that leads back to a folder it is in, and is not followed',
  hint: 'take the link away',
};

// A link that takes the place of records hides them; any other may be there for good reason.
function report(search: Search, { path }: Way, words: { message: string; hint: string }): void {
  const severity = kindOfPath(path) || path === SETTINGS_FILE ? 'error' : 'warning';
  search.findings.push({ ...unreadable(path, words), severity });
}

/** A stray file with the path that it is most likely meant to have. */
export function asStray(file: string): Stray {
  const suggestion = likelyPath(file);
  return suggestion === undefined ? { file } : { file, suggestion };
}

/** What may be in a folder that counts as empty: a repository that was begun for the studio. */
const MAY_BE_THERE: ReadonlySet<string> = new Set(['.git']);

/**
 * Why nothing new may be put into a folder, as a phrase that follows its name; undefined where it is
 * empty, has nothing but a repository in it, or isn't there yet.
 */
export function whyNotVacant(folder: string): string | undefined {
  try {
    const names = readdirSync(folder).filter((name) => !MAY_BE_THERE.has(name));
    return names.length === 0 ? undefined : `is not empty: it has ${someOf(names.sort())} in it`;
  } catch (error) {
    const { code } = error as { code?: string };
    if (code === 'ENOENT') return undefined;
    return code === 'ENOTDIR' ? 'is a file, or leads through one' : "can't be read";
  }
}

const MOST_NAMED = 3;

function someOf(names: readonly string[]): string {
  const more = names.length - MOST_NAMED;
  return names.slice(0, MOST_NAMED).join(', ') + (more > 0 ? ` and ${more} more` : '');
}

/**
 * Looks at a studio, and gives what says later whether it is still as it is now. Files that may yet
 * change without a new stamp, and links, are told apart by what is in them.
 * @param moment now by the machine's clock, in milliseconds; 0 where that is not known
 */
export function stillAsNow(studioDir: string, moment: number): () => boolean {
  const look = (): string => {
    const { files, findings } = listFiles(studioDir);
    return JSON.stringify([files.map((listed) => stateOf(studioDir, listed, moment)), findings]);
  };
  const before = look();
  return () => look() === before;
}

function stateOf(studioDir: string, { file, linked }: ListedFile, moment: number): unknown {
  const stamp = linked ? undefined : stampOf(`${studioDir}/${file}`);
  if (stamp && isSettled(stamp, moment)) return [file, stamp];
  const source = readSource(studioDir, file);
  return [file, stamp, 'text' in source ? source.text : source.message];
}
