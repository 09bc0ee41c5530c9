/** `saggar forget`: deletes what is remembered between runs; the studio itself stays as it is. */
import { forgetAll } from '../../memory/bounds.ts';
import { forgetFolder } from '../../memory/store.ts';
import { repositoryAround, sharedDirOf } from '../../read/git/around.ts';
import { printed } from '../../render/printable.ts';
import type { CommandOf, OptionsOf } from '../catalogue.ts';
import { askedFolder } from './find-studio.ts';
import { refuse } from '../reports/show.ts';
import { EXIT, isRefusal, type Refusal, type World } from '../world.ts';

/** Forgets one studio, or with `--all` every one. */
export const forget: CommandOf<'forget'> = ({ options }, world) => {
  const forgotten = options.all ? everyStudio(world) : oneStudio(options, world);
  if (isRefusal(forgotten)) return Promise.resolve(refuse(world, forgotten));
  const { what, bytes } = forgotten;
  world.write(
    printed`Forgot what was remembered of ${what}: ${(bytes / 1e6).toFixed(1)} MB.\n`,
    'words',
  );
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

function oneStudio(options: OptionsOf<'forget'>, world: World): Forgotten | Refusal {
  const folder = askedFolder(options, world);
  if (typeof folder !== 'string') return folder;
  const { memory } = world;
  if (!memory) return NOWHERE;
  const gitDir = repositoryAround(folder)?.gitDir;
  const folders = [folder, ...(gitDir === undefined ? [] : [sharedDirOf(gitDir)])];
  const bytes = folders.reduce((sum, each) => sum + forgetFolder(each, memory), 0);
  return { what: folder, bytes };
}
