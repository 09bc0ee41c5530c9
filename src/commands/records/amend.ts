/** `saggar amend ID FIELD=VALUE …`: changes of a record that is in a file. */
import { amendedFrom, changingFields } from '../../entry/amend-from.ts';
import { planAmend, type AmendPlan } from '../../entry/amend.ts';
import {
  readAmendment,
  type Amendable,
  type Amendment,
  type ReadAmendment,
} from '../../entry/amendment.ts';
import { inWord, typedProblems } from '../../entry/faults.ts';
import { recordIn } from '../../entry/given.ts';
import { lexiconOf } from '../../entry/lexicon.ts';
import { addDays, dayMeant } from '../../number/date.ts';
import { valueAt } from '../../read/raw.ts';
import { movesFigures } from '../../review/closed.ts';
import type { CommandOf, OptionsOf } from '../catalogue.ts';
import { carryOut, complainOf, type Agreed, type Scene } from './change.ts';
import { askedAmendable } from './find-record.ts';
import { whileLocked } from './locked.ts';
import { refuse } from '../reports/show.ts';
import { notADay } from '../reports/span.ts';
import { shellQuoted } from './take-back.ts';
import { EXIT, isRefusal } from '../world.ts';
import { notWritten } from './writer.ts';

/** Changes values of one record; nothing else in its file moves. */
export const amend: CommandOf<'amend'> = (asked, world) =>
  whileLocked({ asked, world }, amendAsked);

async function amendAsked(scene: Scene<OptionsOf<'amend'>>): Promise<number> {
  const { asked, world, opened } = scene;
  const record = askedAmendable(asked, opened);
  if (isRefusal(record)) return refuse(world, record);
  const words = asked.words.slice(1);
  if (words.length === 0)
    return refuse(world, {
      refused: `say what to change, as in saggar amend ${wordFor(record)} note="…"`,
    });
  const ground = { lexicon: lexiconOf(opened.reading.files), day: opened.asOf };
  const read: ReadAmendment[] = [];
  for (const word of words) {
    const amendment = readAmendment(word, record.kind, ground);
    if (isRefusal(amendment)) return refuse(world, amendment);
    read.push(amendment);
  }
  return amendRecord(scene, record, read);
}

async function amendRecord(
  scene: Scene<OptionsOf<'amend'>>,
  record: Amendable,
  read: readonly ReadAmendment[],
): Promise<number> {
  const { asked, world } = scene;
  const problems = read.flatMap(({ path, faults }) =>
    typedProblems(faults, (fault) => ({ ...inWord(path.join('.'), fault), line: 1 })),
  );
  complainOf(world, problems);
  if (problems.length > 0) return EXIT.errors;
  const done = `Amended ${wordFor(record)}`;
  const { from: said, evenIfClosed } = asked.options;
  const isGuarded = evenIfClosed !== true;
  if (said === undefined) return amendWith(scene, record, { amendments: read, done, isGuarded });
  const from = dayMeant(said, scene.opened.asOf);
  if (from === undefined) return refuse(world, notADay('--from', said));
  const amendments = amendedFrom(record, read, from);
  if (isRefusal(amendments)) return notWritten(world, amendments.refused);
  return amendWith(scene, record, { amendments, done: `${done} from ${from} on`, isGuarded });
}

/** The word that names a record, or the settings, on a command line. */
function wordFor({ id, file }: Amendable): string {
  return id === '' ? file : id;
}

/** Changes of one record, and the words for them. */
interface Changes {
  readonly amendments: readonly Amendment[];
  readonly done: string;
  /** Whether what moves figures of a closed period is refused. */
  readonly isGuarded?: boolean;
  readonly agreed?: Agreed | undefined;
}

/** Carries changes of one record out, unless they would bring an error. */
export async function amendWith(
  scene: Scene,
  record: Amendable,
  { amendments, done, agreed, isGuarded = false }: Changes,
): Promise<number> {
  const { world, opened } = scene;
  const plan = await planAmend(opened, record, amendments);
  if ('refused' in plan) return notWritten(world, plan.refused);
  if (plan.errors > 0) {
    complainOf(world, plan.problems);
    return notWritten(world, 'the book would not be sound with it');
  }
  const closed = isGuarded ? closedBy(scene, plan) : undefined;
  if (closed !== undefined) return notWritten(world, closed);
  return carryOut(scene, {
    plan,
    shown: shownOf(plan, amendments),
    done: record.id === '' ? done : `${done} in ${record.file}`,
    undo: undoOf(record, amendments),
    agreed,
  });
}

/** The record as it will stand; of the settings, the fields that are amended. */
function shownOf({ text, record }: AmendPlan, amendments: readonly Amendment[]): readonly string[] {
  if (record.id !== '') return [recordIn(text, record.id)];
  return [...new Set(amendments.map(({ path: [name = ''] }) => recordIn(text, String(name))))];
}

/** Why a definition can't be amended so: figures of the closed period would be others. */
function closedBy({ asked }: Scene, { record, sides }: AmendPlan): string | undefined {
  const { before, after } = sides;
  const { closedThrough } = before.studio;
  const fields = changingFields(record.kind);
  if (closedThrough === undefined || fields.length === 0) return undefined;
  if (!movesFigures(before, after, closedThrough)) return undefined;
  const words = asked.words.slice(1).map(shellQuoted).join(' ');
  const type = `saggar amend ${wordFor(record)} ${words} --from ${addDays(closedThrough, 1)}`;
  return (
    `figures of the period closed through ${closedThrough} would change. ` +
    `To change it from a day on, type ${type}; ` +
    'to change those figures too, add --even-if-closed'
  );
}

/**
 * The amendment that puts single values back; undefined where more than those would change, or where
 * one holds what no command line can.
 */
function undoOf(record: Amendable, amendments: readonly Amendment[]): string | undefined {
  const back = amendments.map(({ path, value, isNew = false }) => {
    const old = isNew ? undefined : valueAt(record.raw, path);
    // What is new goes as a whole.
    if (old === undefined) return `${path.join('.')}=`;
    const isSingle = typeof old === 'string' && (value === undefined || typeof value === 'string');
    return isSingle && !UNTYPED.test(old) ? shellQuoted(`${path.join('.')}=${old}`) : undefined;
  });
  return back.includes(undefined) ? undefined : `amend ${wordFor(record)} ${back.join(' ')}`;
}

// The end of a text of C, and half a sign of UTF-16.
const UNTYPED = /[\0\p{Surrogate}]/u;
