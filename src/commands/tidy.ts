/** `saggar tidy`: puts quotes where other readers of a file would change a text. */
import { planTidy, type TidyPlan } from '../entry/tidy.ts';
import { counted } from '../in-words.ts';
import { printed } from '../render/printable.ts';
import { carryOut } from './change.ts';
import { whileLocked } from './locked.ts';
import { openFiles } from './open.ts';
import { refuse } from './show.ts';
import { EXIT, isRefusal, type Asked, type Command, type World } from './world.ts';

/** Quotes what needs quotes, and changes nothing else. */
export const tidy: Command = (asked, world) =>
  whileLocked(asked, world, { run: (inner) => tidyAsked(asked, inner) });

async function tidyAsked(asked: Asked, world: World): Promise<number> {
  const opened = await openFiles(asked, world);
  if (isRefusal(opened)) return refuse(world, opened);
  const plan = planTidy(opened.folder, opened.findings);
  for (const reason of plan.left) world.complain(printed`saggar: ${reason}\n`);
  const status = plan.changes.length === 0 ? nothingToDo(plan) : undefined;
  if (status !== undefined) {
    if (status === EXIT.fine) world.complain(printed`Nothing needs quotes.\n`);
    return status;
  }
  const done = `Put quotes round ${counted(plan.quoted, 'value')} in ${filesOf(plan)}`;
  const written = await carryOut({ asked, world, opened }, { plan, shown: [], done });
  return plan.left.length > 0 ? EXIT.errors : written;
}

function nothingToDo({ left }: TidyPlan): number {
  return left.length === 0 ? EXIT.fine : EXIT.errors;
}

function filesOf({ changes }: TidyPlan): string {
  return changes.map(({ file }) => file).join(', ');
}
