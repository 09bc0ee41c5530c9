/** `saggar take-in FILE --by MAP`: rows of a list become records, after a look at all of them. */
import { planAdd, type AddPlan } from '../../entry/add.ts';
import { lexiconOf } from '../../entry/lexicon.ts';
import type { ListKind, ListMap } from '../../entry/lists/map.ts';
import { takingOf, type NewListed, type ListTaking } from '../../entry/lists/taking.ts';
import type { UndoStep } from '../../entry/undoing/undo.ts';
import { counted } from '../../in-words.ts';
import type { Finding, Problem } from '../../problem.ts';
import { isMap, textUnder, valueAt } from '../../read/raw.ts';
import { locate } from '../../read/place.ts';
import { printed } from '../../render/printable.ts';
import { placeOfCell } from '../../entry/lists/table.ts';
import type { CommandOf, OptionsOf } from '../catalogue.ts';
import { refuse } from '../reports/show.ts';
import { EXIT, isRefusal } from '../world.ts';
import { carryOut, complainOf, type Scene } from '../records/change.ts';
import { isFaulty, readAskedList, type ReadList } from './list-asked.ts';
import { whileLocked } from '../records/locked.ts';
import { say, tellChange } from '../records/told.ts';
import { shellQuoted } from '../records/undo.ts';
import { takingWords } from './take-in-words.ts';
import { notWritten } from '../records/writer.ts';

type TakeIn = Scene<OptionsOf<'take-in'>>;

/** Shows what a list would bring into the book; with `--write` brings it in, all or nothing. */
export const takeInList: CommandOf<'take-in'> = async (asked, world) => {
  if (asked.options.draft) return (await import('./draft-map.ts')).draftMap(asked, world);
  const dryRun = asked.options.dryRun === true || asked.options.write !== true;
  const unlocked = { ...asked, options: { ...asked.options, dryRun } };
  return whileLocked({ asked: unlocked, world }, (scene) => takeRowsIn({ ...scene, asked }));
};

async function takeRowsIn(scene: TakeIn): Promise<number> {
  const { asked, world, opened } = scene;
  const named = { list: asked.argument, by: asked.options.by };
  const read = await readAskedList(named, opened, world);
  if (isRefusal(read)) return refuse(world, read);
  if (isFaulty(read)) return unclear(scene, read.findings);
  const { map } = read;
  const { kind } = map;
  if (!kind)
    return refuse(world, {
      refused: `${map.file} says no kind, so nothing is taken in by it; to compare: saggar match ${shellQuoted(asked.argument ?? '')} --by ${map.name}`,
    });
  const taking = takingOf(takingGround(scene, { ...map, kind }), read.table);
  return taken(scene, { map: { ...map, kind }, table: read.table }, taking);
}

function takingGround({ opened, world }: TakeIn, map: ListMap & { readonly kind: ListKind }) {
  const { book, asOf, reading } = opened;
  const told = (done: number, all: number): void => {
    if (done % 500 === 0)
      world.progress?.(printed`Looking at ${done} of ${all} records of the list`);
  };
  return { map, book, day: asOf, lexicon: lexiconOf(reading.files), told };
}

type MapOfKind = ReadList & { readonly map: { readonly kind: ListKind } };

async function taken(scene: TakeIn, list: MapOfKind, taking: ListTaking): Promise<number> {
  const { asked, world, opened } = scene;
  const due = asked.options.late ? [...taking.fresh, ...taking.late] : taking.fresh;
  const words = takingWords({ ...list, taking, due, opened });
  if (taking.findings.length > 0) {
    for (const line of words.summary) say(scene, printed`${line}\n`);
    return unclear(scene, taking.findings);
  }
  world.progress?.(printed`Checking the book with ${counted(due.length, 'new record')}`);
  const records = due.map(({ record }) => ({ id: undefined, fields: record }));
  const plan = await planAdd(opened, { kind: list.map.kind, records, random: world.random });
  if ('refused' in plan) return notWritten(world, plan.refused);
  if (plan.errors > 0) {
    if (plan.elsewhere)
      world.complain(printed`With these rows in the book, other records do not fit any more:\n`);
    complainOf(world, atRows(plan, due));
    return notWritten(world, 'the book would not be sound with these rows');
  }
  for (const line of [...words.summary, ...words.each]) say(scene, printed`${line}\n`);
  const { write, dryRun } = asked.options;
  if (due.length === 0 || (write !== true && dryRun !== true)) return looked(scene, plan, due);
  return carryOut(scene, {
    // One line for each of thousands of sales says nothing any more.
    plan: { ...plan, touched: [], problems: atRows(plan, due) },
    shown: [],
    done: `Took in ${words.done}`,
    undo: () => [undoOf(scene, list.map, plan)],
  });
}

/** Ends a look: says how to take in what was shown. */
function looked(scene: TakeIn, plan: AddPlan, due: readonly NewListed[]): number {
  const { asked, world } = scene;
  complainOf(world, atRows(plan, due));
  const { argument = '', options } = asked;
  const late = options.late ? ' --late' : '';
  const command = `saggar take-in ${shellQuoted(argument)} --by ${shellQuoted(options.by ?? '')}${late} --write`;
  if (due.length > 0) say(scene, printed`\nNothing is written yet. To take it in: ${command}\n`);
  if (options.as === 'json') tellChange(scene, { ...plan, written: false });
  return EXIT.fine;
}

async function unclear({ world, opened }: TakeIn, findings: readonly Finding[]): Promise<number> {
  complainOf(world, await locate(opened.folder, findings));
  return notWritten(
    world,
    `${counted(findings.length, 'place')} in the list or its map to look at first`,
  );
}

/** What the check says of new records, at the rows that they are of. */
function atRows({ problems, added }: AddPlan, due: readonly NewListed[]): readonly Problem[] {
  const rows = new Map(added.map(({ id }, at) => [id, due[at]?.rows[0]]));
  return problems.map((problem) => {
    const row = rows.get(problem.record ?? '');
    return row ? { ...problem, place: placeOfCell(row) } : problem;
  });
}

/** All of one day's bringing goes by its list and day; where there was another that day, by ids. */
function undoOf({ opened }: TakeIn, { name, kind }: ListMap, { added }: AddPlan): UndoStep {
  const before = lexiconOf(opened.reading.files).records(kind ? [kind] : []);
  const isOther = before.some(({ raw }) => {
    const from = valueAt(raw, ['from']);
    return (
      isMap(from) && textUnder(from, 'list') === name && textUnder(from, 'date') === opened.asOf
    );
  });
  if (isOther) return { words: ['remove', ...added.map(({ id }) => id)] };
  return { words: ['remove', '--from', name, '--on', opened.asOf] };
}
