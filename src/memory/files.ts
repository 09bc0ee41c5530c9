/** Files in which something is remembered: opened only as plain files of the person's own, written whole. */
import { Buffer } from 'node:buffer';
import {
  closeSync,
  constants,
  fstatSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readFileSync,
  readSync,
  renameSync,
  rmSync,
  writeFileSync,
  type Stats,
} from 'node:fs';

/** Who a file must belong to; undefined where the system doesn't say. */
export type Owner = number | undefined;

// A link could lead anywhere, and a pipe would wait for someone to write into it.
const READ = constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK;
const OF_OTHERS = 0o077;
const FOLDER_MODE = 0o700;
const FILE_MODE = 0o600;

/** Whether there is a plain file that may be trusted. Never throws. */
export function isPlain(path: string, owner: Owner): boolean {
  const handle = openPlain(path, owner);
  if (handle !== undefined) closeSync(handle);
  return handle !== undefined;
}

/** A handle on a plain file; undefined where there is none that may be trusted. Never throws. */
function openPlain(path: string, owner: Owner): number | undefined {
  let handle: number | undefined;
  try {
    handle = openSync(path, READ);
    const stats = fstatSync(handle);
    if (stats.isFile() && isOwn(stats, owner)) return handle;
  } catch {
    // Whatever it is, it is passed over.
  }
  if (handle !== undefined) closeSync(handle);
  return undefined;
}

/** Some of the bytes of a file. */
export interface Span {
  readonly at: number;
  readonly size: number;
}

/** The bytes of a plain file, or some; undefined where there is none that may be trusted. Never throws. */
export function readPlain(path: string, owner: Owner, span?: Span): Buffer | undefined {
  const handle = openPlain(path, owner);
  if (handle === undefined) return undefined;
  try {
    return span ? readSpan(handle, span) : readFileSync(handle);
  } catch {
    return undefined;
  } finally {
    closeSync(handle);
  }
}

/** In memory of its own, on which a view of wide numbers can be laid. */
function readSpan(handle: number, { at, size }: Span): Buffer | undefined {
  const bytes = Buffer.allocUnsafeSlow(size);
  return readSync(handle, bytes, 0, size, at) === size ? bytes : undefined;
}

/**
 * Writes a file whole or not at all, and only for the person to read; takes away what is in its place
 * and can't be replaced, such as a folder. Throws where it can't.
 */
export function writePlain(path: string, content: string | Uint8Array): void {
  const place = mkdtempSync(`${path}-new-`);
  try {
    writeFileSync(`${place}/new`, content, { mode: FILE_MODE, flag: 'wx' });
    if (lstatSync(path, { throwIfNoEntry: false })?.isDirectory())
      rmSync(path, { recursive: true });
    renameSync(`${place}/new`, path);
  } finally {
    rmSync(place, { recursive: true, force: true });
  }
}

/** Makes a folder that only the person can look into, with those above it. Throws where it can't. */
export function makeOwnFolder(folder: string): void {
  mkdirSync(folder, { recursive: true, mode: FOLDER_MODE });
}

/** Whether it is a folder, no link, of the person's own that nobody else can look into or write in. */
export function isPrivateFolder(folder: string, owner: Owner): boolean {
  const stats = lstatSync(folder, { throwIfNoEntry: false });
  if (!stats?.isDirectory()) return false;
  return owner === undefined || (isOwn(stats, owner) && (stats.mode & OF_OTHERS) === 0);
}

function isOwn({ uid }: Stats, owner: Owner): boolean {
  return owner === undefined || uid === owner;
}
