/** `saggar quarter`: the tax summary of a quarter or a year, for a preparer. */
import { commitOf, openRepository } from '../read/git/repository.ts';
import { sheetState } from '../read/sheet-state.ts';
import { newAnswer, showAnswer, type MakeTableLater } from './show.ts';
import { isRefusal, textOption, type Command, type World } from './world.ts';

/** Shows the tax summary of the quarter that the day is in, or of the one that is asked for. */
export const quarter: Command = (asked, world) =>
  showAnswer(asked, world, {
    find: (found) => newAnswer(found, { asked, world, load: () => load(world) }),
    // A commit's sheet is as it is; what was closed is told of the book on the disk only.
    beside: ({ folder, past }) =>
      past ? [] : [sheetState(folder, textOption(asked, 'sheet')), headOf(folder, world)],
  });

/** The commit that is checked out, for git tells what a closed period was; undefined where there is none. */
function headOf(folder: string, { environment }: World): string | undefined {
  const repository = openRepository(folder, environment);
  if (isRefusal(repository)) return undefined;
  const head = commitOf(repository, 'HEAD');
  return isRefusal(head) ? undefined : head.id;
}

async function load(world: World): Promise<MakeTableLater> {
  return (await import('./tables/quarter.ts')).quarterSinceClosed(world);
}
