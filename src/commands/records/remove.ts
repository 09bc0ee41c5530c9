/** `saggar remove ID`: takes a record out of its file. */
import { listed } from '../../check/finding.ts';
import { recordIn } from '../../entry/given.ts';
import { planRemove, type RemovePlan } from '../../entry/remove.ts';
import { counted } from '../../in-words.ts';
import { locate } from '../../read/place.ts';
import type { CommandOf, OptionsOf } from '../catalogue.ts';
import { carryOut, complainOf, type Scene } from './change.ts';
import { askedRecord } from './find-record.ts';
import { whileLocked } from './locked.ts';
import { refuse } from '../reports/show.ts';
import { isRefusal } from '../world.ts';
import { notWritten } from './writer.ts';

/** Removes a record, unless others name it or the book would have an error without it. */
export const remove: CommandOf<'remove'> = (asked, world) =>
  whileLocked({ asked, world }, removeAsked);

async function removeAsked(scene: Scene<OptionsOf<'remove'>>): Promise<number> {
  const { asked, world, opened } = scene;
  const record = askedRecord(asked, opened);
  if (isRefusal(record)) return refuse(world, record);
  const plan = await planRemove(opened, record);
  if ('refused' in plan) return notWritten(world, plan.refused);
  if (asked.options.evenIfUsed) return takeOut(scene, plan);
  if (plan.usedAt.length > 0) return stillUsed(scene, plan);
  if (plan.errors === 0) return takeOut(scene, plan);
  complainOf(world, plan.problems);
  return notWritten(
    world,
    'the book would not be sound without it; --even-if-used removes it all the same',
  );
}

function takeOut(scene: Scene, plan: RemovePlan): Promise<number> {
  const { id, file } = plan.removed;
  const [change] = plan.changes;
  const text = recordIn(change?.before ?? '', id);
  const isGone = change?.after === undefined;
  const done = isGone ? `Removed ${id}, and with it ${file}` : `Removed ${id} from ${file}`;
  return carryOut(scene, { plan, shown: [text], done });
}

/** So many places are shown; a material may be named in a thousand. */
const MOST_SHOWN = 10;

async function stillUsed({ world, opened }: Scene, plan: RemovePlan): Promise<number> {
  const { id } = plan.removed;
  const findings = plan.usedAt.slice(0, MOST_SHOWN).map((at) => ({
    rule: 'in-use',
    severity: 'error' as const,
    at,
    message: `${String(at.path[0])} names ${id}`,
    hint: '',
  }));
  complainOf(world, await locate(opened.folder, findings));
  const users = [...new Set(plan.usedAt.map(({ path }) => String(path[0])))];
  const inWords = users.length > MOST_SHOWN ? counted(users.length, 'other record') : listed(users);
  return notWritten(
    world,
    `${id} is named in ${inWords}; change that first, or remove it all the same with --even-if-used`,
  );
}
