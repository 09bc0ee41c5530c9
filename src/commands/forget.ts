/** `saggar forget`: deletes what is remembered between runs; the studio itself stays as it is. */
import { forgetAll } from '../memory/bounds.ts';
import { forgetFolder } from '../memory/store.ts';
import { repositoryAround, sharedDirOf } from '../read/git/around.ts';
import { printed } from '../render/printable.ts';
import { findAsked } from './find-studio.ts';
import { refuse } from './show.ts';
import { EXIT, isRefusal, type Asked, type Command, type Refusal, type World } from './world.ts';

/** Forgets one studio, or with `--all` every one. */
export const forget: Command = (asked, world) => {
  const forgotten = asked.options['all'] === true ? everyStudio(world) : oneStudio(asked, world);
  if (isRefusal(forgotten)) return Promise.resolve(refuse(world, forgotten));
  const { what, bytes } = forgotten;
  world.write(printed`Forgot what was remembered of ${what}: ${(bytes / 1e6).toFixed(1)} MB.\n`);
  return Promise.resolve(EXIT.fine);
};

interface Forgotten {
  readonly what: string;
  readonly bytes: number;
}

const NOWHERE = {
  refused: 'nothing is remembered, since SAGGAR_MEMORY is none or there is no home',
};

function everyStudio({ memory }: World): Forgotten | Refusal {
  return memory ? { what: 'every studio', bytes: forgetAll(memory) } : NOWHERE;
}

function oneStudio(asked: Asked, world: World): Forgotten | Refusal {
  const found = findAsked(asked, world);
  if (isRefusal(found)) return found;
  const { memory } = world;
  if (!memory) return NOWHERE;
  const gitDir = repositoryAround(found.folder)?.gitDir;
  const folders = [found.folder, ...(gitDir === undefined ? [] : [sharedDirOf(gitDir)])];
  const bytes = folders.reduce((sum, folder) => sum + forgetFolder(folder, memory), 0);
  return { what: found.folder, bytes };
}
