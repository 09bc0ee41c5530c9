/** Where a command finds what was remembered of a studio and of its repository. */
import { forgetFolder, storeOf, type Store } from '../memory/store.ts';
import { sharedDirOf } from '../read/git/around.ts';
import type { Repository } from '../read/git/repository.ts';
import type { Asked, World } from './world.ts';

/** Where a studio, or a repository, is remembered; undefined where nothing is. */
export function storeFor(
  folder: string,
  { memory, stamp }: Pick<World, 'memory' | 'stamp'>,
): Store | undefined {
  const store = memory && storeOf(folder, { place: memory, stamp });
  return store && 'because' in store ? undefined : store;
}

/** The same for a command; with `--afresh` what was remembered is forgotten first. */
export function askedStore(folder: string, asked: Asked, world: World): Store | undefined {
  const store = storeFor(folder, world);
  if (store && world.memory && asked.options['afresh'] === true) forgetFolder(folder, world.memory);
  return store;
}

/** Where it is remembered what commits of a repository come to, for all its working trees. */
export function commitStore(
  { gitDir }: Pick<Repository, 'gitDir'>,
  asked: Asked,
  world: World,
): Store | undefined {
  return askedStore(sharedDirOf(gitDir), asked, world);
}
