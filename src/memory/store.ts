/** Where a studio is remembered: a folder of its own in the person's memory, never in the studio. */
import { Buffer } from 'node:buffer';
import {
  closeSync,
  constants,
  existsSync,
  fstatSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readFileSync,
  readSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
  type Stats,
} from 'node:fs';
import { dirname, isAbsolute, join, sep } from 'node:path';
import { digestOf } from '../digest.ts';
import type { MemoryPlace } from '../home.ts';
import { MOST_OF_ONE, bytesIn, forgetStore, keepBounds } from './bounds.ts';

/** What is remembered of one folder, be it a studio or a repository. */
export interface StudioStore {
  /** Names the program, its schemas and the folder: what is kept under another name is passed over. */
  readonly stamp: string;
  /** This moment by the machine's clock, in milliseconds. */
  readonly clock: () => number;
  /** Whether something is kept under a name. */
  readonly has: (name: string) => boolean;
  /** What is kept under a name, or some of its bytes. */
  readonly read: (name: string, span?: BytesAt) => Buffer | undefined;
  /** Keeps something under a name; nothing happens where that can't be done, or would be too much. */
  readonly write: (name: string, content: string | Uint8Array) => boolean;
  /** Forgets all whose names begin so, but for some. */
  readonly forgetBut: (start: string, but: ReadonlySet<string>) => boolean;
}

/** Why nothing can be remembered of a folder: a phrase that follows "since". */
interface Unremembered {
  readonly because: string;
}

/** Where things are remembered, and for which version of the program and its schemas. */
interface Remembering {
  readonly place: MemoryPlace;
  readonly stamp: string;
}

/** The store of a folder, which need not have anything in it yet, or why there is none. Never throws. */
export function storeOf(folder: string, { place, stamp }: Remembering): StudioStore | Unremembered {
  try {
    const real = realpathSync(folder);
    const because = obstacle(real, place);
    if (because !== undefined) return { because };
    const key = studioKey(real, place);
    const own = join(place.folder, key);
    markAsUsed(own, place);
    return storeIn(own, { place, stamp: `${stamp} ${key}` });
  } catch {
    return { because: `${folder} can't be looked at` };
  }
}

/** Why nothing can be kept in a store; undefined where it can. Makes its folder. */
export function unkeepable(folder: string, remembering: Remembering): string | undefined {
  const store = storeOf(folder, remembering);
  if ('because' in store) return store.because;
  if (store.write(TRIAL, '')) return undefined;
  return `${remembering.place.folder} can't be written to, or is not a folder of your own`;
}

/**
 * Forgets all that is remembered of a folder, whatever version of the program remembered it.
 * @returns how many bytes it was
 */
export function forgetFolder(folder: string, place: MemoryPlace): number {
  return forgetStore(join(place.folder, studioKey(realpathSync(folder), place)));
}

/** Written and left empty, to see whether something can be kept. */
const TRIAL = 'trial';
const DAY_IN_MS = 86_400_000;

function obstacle(real: string, { folder, home, isNamed }: MemoryPlace): string | undefined {
  if (!isAbsolute(folder)) return 'SAGGAR_MEMORY is neither an absolute path nor none';
  if (leadsInto(folder, real)) return `${folder} is in the studio itself`;
  const own = existsSync(home) ? home : nearestReal(folder);
  if (isNamed || statSync(real).dev === statSync(own).dev) return undefined;
  return 'the studio is on another disk than your home folder (SAGGAR_MEMORY=FOLDER names a place for it)';
}

/** Host, device, inode and path, so that a copy or another machine's folder is never taken for it. */
function studioKey(real: string, { host }: MemoryPlace): string {
  const { dev, ino } = statSync(real, { bigint: true });
  return digestOf(JSON.stringify([host, String(dev), String(ino), real])).slice(0, 32);
}

function storeIn(folder: string, { place, stamp }: Remembering): StudioStore {
  const { user, clock } = place;
  let usable: boolean | undefined;
  const isUsable = (): boolean => (usable ??= isPrivateFolder(folder, user));
  const isMade = (): boolean => {
    makeOwnFolder(folder);
    attempt(() => {
      keepBounds(place, folder);
    });
    return (usable = isPrivateFolder(folder, user));
  };
  return {
    stamp,
    clock,
    has: (name) => isUsable() && isPlainFile(join(folder, name), user),
    read: (name, span) => (isUsable() ? readPlain(join(folder, name), user, span) : undefined),
    write: (name, content) =>
      attempt(() => {
        if (!isUsable() && !isMade()) throw new Error(`${folder} is not the person's own`);
        if (bytesIn(folder) + content.length > MOST_OF_ONE) throw new Error(`${folder} is full`);
        writePlain(join(folder, name), content);
      }),
    forgetBut: (start, but) =>
      attempt(() => {
        const all = readdirSync(folder).filter((name) => name.startsWith(start));
        const names = all.filter((name) => !but.has(name));
        for (const name of names) rmSync(join(folder, name), { recursive: true, force: true });
      }),
  };
}

/** Marks a folder as used today, which keeps it from being forgotten; once a day all others are looked at. */
function markAsUsed(folder: string, place: MemoryPlace): void {
  const now = place.clock();
  attempt(() => {
    const used = lstatSync(folder, { throwIfNoEntry: false })?.mtimeMs;
    if (used === undefined || Math.abs(now - used) < DAY_IN_MS) return;
    utimesSync(folder, now / 1000, now / 1000);
    keepBounds(place, folder);
  });
}

function attempt(act: () => void): boolean {
  try {
    act();
    return true;
  } catch {
    return false;
  }
}

/** Who a file must belong to; undefined where the system doesn't say. */
type Owner = number | undefined;

// A link could lead anywhere, and a pipe would wait for someone to write into it.
const READ = constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK;
const OF_OTHERS = 0o077;
const FOLDER_MODE = 0o700;
const FILE_MODE = 0o600;

/** Whether there is a plain file that may be trusted. Never throws. */
function isPlainFile(path: string, owner: Owner): boolean {
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
interface BytesAt {
  readonly at: number;
  readonly size: number;
}

/** The bytes of a plain file, or some; undefined where there is none that may be trusted. Never throws. */
function readPlain(path: string, owner: Owner, span?: BytesAt): Buffer | undefined {
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
function readSpan(handle: number, { at, size }: BytesAt): Buffer | undefined {
  const bytes = Buffer.allocUnsafeSlow(size);
  return readSync(handle, bytes, 0, size, at) === size ? bytes : undefined;
}

/**
 * Writes a file whole or not at all, and only for the person to read; takes away what is in its place
 * and can't be replaced, such as a folder. Throws where it can't.
 */
function writePlain(path: string, content: string | Uint8Array): void {
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
function makeOwnFolder(folder: string): void {
  mkdirSync(folder, { recursive: true, mode: FOLDER_MODE });
}

/** Whether it is a folder, no link, of the person's own that nobody else can look into or write in. */
function isPrivateFolder(folder: string, owner: Owner): boolean {
  const stats = lstatSync(folder, { throwIfNoEntry: false });
  if (!stats?.isDirectory()) return false;
  return owner === undefined || (isOwn(stats, owner) && (stats.mode & OF_OTHERS) === 0);
}

function isOwn({ uid }: Stats, owner: Owner): boolean {
  return owner === undefined || uid === owner;
}

/**
 * Whether a path is a folder or leads into it, as far as it is there: a link in it may do so.
 * @param folder with every link followed
 */
export function leadsInto(path: string, folder: string): boolean {
  const real = nearestReal(path);
  return real === folder || real.startsWith(folder.endsWith(sep) ? folder : folder + sep);
}

/** The part of a path that is there, with every link followed. */
function nearestReal(path: string): string {
  if (existsSync(path)) return realpathSync(path);
  const above = dirname(path);
  return above === path ? path : nearestReal(above);
}
