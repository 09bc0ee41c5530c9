/** Keeps the memory small: what nobody asked for in a long time goes, and what is too much. */
import { lstatSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { attempt } from '../attempt.ts';
import type { MemoryPlace } from '../home.ts';

/** The most that is kept of one studio, in bytes; one of ten years takes half of it. */
export const MOST_OF_ONE = 64 * 1024 * 1024;
/** The most that is kept in all, in bytes. */
export const MOST_IN_ALL = 500 * 1024 * 1024;
/** How long something is kept that nobody asks for, in milliseconds: 90 days. */
export const LONGEST_UNUSED = 90 * 86_400_000;

const STORE = /^[0-9a-f]{32}$/;

/** One studio's folder in the memory, when it was last used, and how large it is. */
interface KeptStore {
  readonly folder: string;
  readonly used: number;
  readonly bytes: number;
}

/** Forgets what is too old, and what was used longest ago where all is too much; never the folder in use. */
export function keepBounds(place: Pick<MemoryPlace, 'folder' | 'clock'>, inUse: string): void {
  const now = place.clock();
  const kept = storesIn(place.folder).sort((a, b) => b.used - a.used);
  let bytes = 0;
  for (const store of kept) {
    bytes += store.bytes;
    const isTooMuch = bytes > MOST_IN_ALL || now - store.used > LONGEST_UNUSED;
    if (!isTooMuch || store.folder === inUse) continue;
    bytes -= forgetStore(store.folder);
  }
}

/**
 * Forgets all that is remembered.
 * @returns how many bytes it was
 */
export function forgetAll({ folder }: Pick<MemoryPlace, 'folder'>): number {
  return storesIn(folder).reduce((sum, store) => sum + forgetStore(store.folder), 0);
}

/** How many bytes the folder holds in which something is remembered. */
export function bytesIn(folder: string): number {
  return storeAt(folder)[0]?.bytes ?? 0;
}

/**
 * Deletes the folder in which something is remembered, if there is one.
 * @returns how many bytes it was
 */
export function forgetStore(folder: string): number {
  const bytes = bytesIn(folder);
  rmSync(folder, { recursive: true, force: true });
  return bytes;
}

/** What the memory keeps of each studio; other things in the folder are not the program's. */
function storesIn(folder: string): KeptStore[] {
  const names = (attempt(() => readdirSync(folder)) ?? []).filter((name) => STORE.test(name));
  return names.flatMap((name) => storeAt(join(folder, name)));
}

/** The folder of one studio; none where it can't be looked into. */
function storeAt(folder: string): KeptStore[] {
  return attempt(() => lookedInto(folder)) ?? [];
}

function lookedInto(folder: string): KeptStore[] {
  const stats = lstatSync(folder, { throwIfNoEntry: false });
  if (!stats?.isDirectory()) return [];
  const sizes = readdirSync(folder).map(
    (name) => lstatSync(join(folder, name), { throwIfNoEntry: false })?.size ?? 0,
  );
  return [{ folder, used: stats.mtimeMs, bytes: sizes.reduce((sum, size) => sum + size, 0) }];
}
