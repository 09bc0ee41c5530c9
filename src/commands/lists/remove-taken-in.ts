/** `saggar remove --from shop --on DAY`: all that was taken in from a list on a day. */
import { lexiconOf, type FoundRecord } from '../../entry/lexicon.ts';
import { planRemoveAll } from '../../entry/remove.ts';
import { LIST_KINDS } from '../../entry/lists/map.ts';
import { counted } from '../../in-words.ts';
import { dayMeant } from '../../number/date.ts';
import { textUnder, valueAt } from '../../read/raw.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import { refuse } from '../reports/show.ts';
import { isRefusal, type Refusal } from '../world.ts';
import { carryOut, complainOf, type Scene } from '../records/change.ts';
import { stillUsed } from '../records/remove.ts';
import { notWritten } from '../records/writer.ts';

type Removing = Scene<OptionsOf<'remove'>>;

/** Takes a bringing back whole, whatever was changed in its records since. */
export async function removeTakenIn(scene: Removing): Promise<number> {
  const { asked, world, opened } = scene;
  const records = takenIn(scene);
  if (isRefusal(records)) return refuse(world, records);
  const plan = await planRemoveAll(opened, records);
  if ('refused' in plan) return notWritten(world, plan.refused);
  if (!asked.options.evenIfUsed && plan.usedAt.length > 0) return stillUsed(scene, plan);
  if (!asked.options.evenIfUsed && plan.errors > 0) {
    complainOf(world, plan.problems);
    return notWritten(
      world,
      'the book would not be sound without them; to remove them all the same, add --even-if-used',
    );
  }
  const { from = '', on = '' } = asked.options;
  return carryOut(scene, {
    plan: { ...plan, touched: [] },
    shown: [],
    done: `Removed ${counted(records.length, 'record')} that came from ${from} on ${on}; to have them again, take the list in again`,
    undo: () => [],
  });
}

function takenIn({ asked, opened }: Removing): readonly FoundRecord[] | Refusal {
  const { from, on } = asked.options;
  const said = from === undefined ? `--on ${on ?? ''}` : `--from ${from}`;
  if (asked.words.length > 0)
    return { refused: `give ids alone, or a whole list with ${said} and no id` };
  if (from === undefined) return { refused: 'say which list too, such as --from shop' };
  const all = lexiconOf(opened.reading.files)
    .records(LIST_KINDS)
    .filter(({ raw }) => fromOf(raw, 'list') !== '');
  const own = all.filter(({ raw }) => fromOf(raw, 'list') === from);
  if (own.length === 0)
    return unknownId('list', from, new Set(all.map(({ raw }) => fromOf(raw, 'list'))));
  const days = [...new Set(own.map(({ raw }) => fromOf(raw, 'date')))].sort();
  const day = on === undefined ? undefined : dayMeant(on, opened.asOf);
  const found = own.filter(({ raw }) => fromOf(raw, 'date') === day);
  if (found.length > 0) return found;
  return { refused: `say on which day ${from} was taken in, with --on: ${days.join(', ')}` };
}

function fromOf(raw: FoundRecord['raw'], field: string): string {
  return textUnder(valueAt(raw, ['from']), field);
}
