/** `saggar remove ID …`: takes records out of their files. */
import { listed } from '../../check/finding.ts';
import { recordIn } from '../../entry/given.ts';
import type { FoundRecord } from '../../entry/lexicon.ts';
import { planRemove, type RemovePlan } from '../../entry/remove.ts';
import { undoRemoved } from '../../entry/undoing/undo.ts';
import { counted } from '../../in-words.ts';
import { locate } from '../../read/place.ts';
import type { CommandOf, OptionsOf } from '../catalogue.ts';
import { carryOut, complainOf, type Scene } from './change.ts';
import { askedRecord } from './find-record.ts';
import { whileLocked } from './locked.ts';
import { refuse } from '../reports/show.ts';
import { isRefusal, type Refusal } from '../world.ts';
import { notWritten } from './writer.ts';

/** Removes records, unless others name them or the book would have an error without them. */
export const remove: CommandOf<'remove'> = (asked, world) =>
  whileLocked({ asked, world }, removeAsked);

async function removeAsked(scene: Scene<OptionsOf<'remove'>>): Promise<number> {
  const { asked, world, opened } = scene;
  const { from, on } = asked.options;
  if (from !== undefined || on !== undefined)
    return (await import('../lists/remove-taken-in.ts')).removeTakenIn(scene);
  const records = askedRecords(scene);
  if (isRefusal(records)) return refuse(world, records);
  const plan = await planRemove(opened, records);
  if ('refused' in plan) return notWritten(world, plan.refused);
  if (asked.options.evenIfUsed) return takeOut(scene, plan);
  if (plan.usedAt.length > 0) return stillUsed(scene, plan);
  if (plan.errors === 0) return takeOut(scene, plan);
  complainOf(world, plan.problems);
  return notWritten(
    world,
    `the book would not be sound without ${namesOf(plan)}; to remove it all the same, add --even-if-used`,
  );
}

function askedRecords({
  asked,
  opened,
}: Scene<OptionsOf<'remove'>>): readonly FoundRecord[] | Refusal {
  const words = asked.words.length > 0 ? asked.words : [undefined];
  const records: FoundRecord[] = [];
  for (const argument of words) {
    const record = askedRecord({ argument }, opened);
    if (isRefusal(record)) return record;
    if (!records.some(({ id }) => id === record.id)) records.push(record);
  }
  return records;
}

/** Of many only how many they are. */
function namesOf({ touched }: RemovePlan): string {
  if (touched.length > MOST_SHOWN) return counted(touched.length, 'record');
  return listed(touched.map(({ id }) => id));
}

function takeOut(scene: Scene, plan: RemovePlan): Promise<number> {
  const { taken, changes } = plan;
  const gone = changes.filter(({ after }) => after === undefined).map(({ file }) => file);
  const left = changes.filter(({ after }) => after !== undefined).map(({ file }) => file);
  const from = left.length > 0 ? ` from ${listed(left)}` : '';
  const away =
    gone.length > 0 ? `, and with ${taken.length > 1 ? 'them' : 'it'} ${listed(gone)}` : '';
  return carryOut(scene, {
    plan,
    shown: taken.map(({ record, before }) => recordIn(before, record.id)),
    done: `Removed ${namesOf(plan)}${from}${away}`,
    undo: () => undoRemoved(taken),
  });
}

/** So many places are shown; a material may be named in a thousand. */
const MOST_SHOWN = 10;

/** Says which other records name them. */
export async function stillUsed({ world, opened }: Scene, plan: RemovePlan): Promise<number> {
  const name = namesOf(plan);
  const findings = plan.usedAt.slice(0, MOST_SHOWN).map(({ at, id }) => ({
    rule: 'in-use',
    severity: 'error' as const,
    at,
    message: `${String(at.path[0])} names ${id}`,
    hint: '',
  }));
  complainOf(world, await locate(opened.folder, findings));
  const users = [...new Set(plan.usedAt.map(({ at }) => String(at.path[0])))];
  const inWords = users.length > MOST_SHOWN ? counted(users.length, 'other record') : listed(users);
  return notWritten(
    world,
    `${name} is named in ${inWords}; change that first, or remove it all the same with --even-if-used`,
  );
}
