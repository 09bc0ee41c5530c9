/** What tests remember: in a folder of their own, by a clock that runs ahead, so that all is settled. */
import { readdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { MemoryPlace } from '../../src/home.ts';
import { storeOf, type StudioStore } from '../../src/memory/store.ts';

/** How far ahead the clock is, in milliseconds: more than files take to settle. */
export const AHEAD = 10_000;

/** The place of all that commands of this test remember. */
export function memoryForTests(): MemoryPlace {
  return {
    folder: join(process.env['XDG_CACHE_HOME'] ?? tmpdir(), 'saggar'),
    home: tmpdir(),
    isNamed: false,
    host: 'here',
    user: process.getuid?.(),
    clock: () => Date.now() + AHEAD,
  };
}

/** Where a folder is remembered. */
export function storeIn(folder: string, stamp = '', place = memoryForTests()): StudioStore {
  const store = storeOf(folder, { place, stamp });
  if ('because' in store) throw new Error(store.because);
  return store;
}

/** The folder in which a store of its own is kept, by what is in the memory. */
export function folderOf(store: StudioStore, place = memoryForTests()): string {
  const key = store.stamp.split(' ').at(-1) ?? '';
  return join(place.folder, key);
}

/** The names of what a store keeps. */
export function namesIn(store: StudioStore): string[] {
  return readdirSync(folderOf(store)).sort();
}
