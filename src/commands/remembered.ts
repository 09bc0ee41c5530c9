/** Where a command finds what was remembered of a studio. */
import { forgetFolder, storeOf, type StudioStore } from '../memory/store.ts';
import type { Asked, World } from './world.ts';

/** Where a studio is remembered; undefined where nothing is. */
export function storeFor(
  folder: string,
  { memory, stamp }: Pick<World, 'memory' | 'stamp'>,
): StudioStore | undefined {
  const store = memory && storeOf(folder, { place: memory, stamp });
  return store && 'because' in store ? undefined : store;
}

/** The same for a command; with `--afresh` what was remembered is forgotten first. */
export function askedStore(folder: string, asked: Asked, world: World): StudioStore | undefined {
  const store = storeFor(folder, world);
  if (store && world.memory && asked.options['afresh'] === true) forgetFolder(folder, world.memory);
  return store;
}
