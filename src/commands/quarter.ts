/** `saggar quarter`: the tax summary of a quarter or a year, for a preparer. */
import { sheetState } from '../read/sheet-state.ts';
import { newAnswer, showAnswer, type MakeTable } from './show.ts';
import { textOption, type Command } from './world.ts';

/** Shows the tax summary of the quarter that the day is in, or of the one that is asked for. */
export const quarter: Command = (asked, world) =>
  showAnswer(asked, world, {
    find: (found) => newAnswer(found, { asked, world, load }),
    beside: ({ folder }) => sheetState(folder, textOption(asked, 'sheet')),
  });

async function load(): Promise<MakeTable> {
  return (await import('./tables/quarter.ts')).quarter;
}
