/** `saggar amend ID FIELD=VALUE …`: changes of a record that is in a file. */
import { planAmend, type AmendPlan } from '../entry/amend.ts';
import { readAmendment, type Amendment, type ReadAmendment } from '../entry/amendment.ts';
import { valueAt } from '../entry/at-path.ts';
import { inWord, typedProblems } from '../entry/faults.ts';
import { lexiconOf, type Named } from '../entry/lexicon.ts';
import { recordIn } from '../entry/record-lines.ts';
import { carryOut, complainOf, type Scene } from './change.ts';
import { askedRecord } from './find-record.ts';
import { whileLocked } from './locked.ts';
import { openFiles } from './open.ts';
import { refuse } from './show.ts';
import { quoted } from './take-back.ts';
import { EXIT, isRefusal, type Asked, type Command, type World } from './world.ts';
import { notWritten } from './writer.ts';

/** Changes values of one record; nothing else in its file moves. */
export const amend: Command = (asked, world) =>
  whileLocked(asked, world, { run: (inner) => amendAsked(asked, inner) });

async function amendAsked(asked: Asked, world: World): Promise<number> {
  const opened = await openFiles(asked, world);
  if (isRefusal(opened)) return refuse(world, opened);
  const record = askedRecord(asked, opened);
  if (isRefusal(record)) return refuse(world, record);
  const words = asked.words.slice(1);
  if (words.length === 0)
    return refuse(world, {
      refused: `say what to change, as in saggar amend ${record.id} note="…"`,
    });
  const lexicon = lexiconOf(opened.reading.files);
  const read: ReadAmendment[] = [];
  for (const word of words) {
    const amendment = readAmendment(word, record.kind, lexicon);
    if (isRefusal(amendment)) return refuse(world, amendment);
    read.push(amendment);
  }
  return amendRecord({ asked, world, opened }, record, read);
}

async function amendRecord(
  scene: Scene,
  record: Named,
  read: readonly ReadAmendment[],
): Promise<number> {
  const problems = read.flatMap(({ path, faults }) =>
    typedProblems(faults, (fault) => ({ ...inWord(path.join('.'), fault), line: 1 })),
  );
  complainOf(scene.world, problems);
  if (problems.length > 0) return EXIT.errors;
  return amendWith(scene, record, { amendments: read, done: `Amended ${record.id}` });
}

/** Changes of one record, and the words for them. */
export interface Changes {
  readonly amendments: readonly Amendment[];
  readonly done: string;
  /** Asked once everything is shown: whether to write. Absent means yes. */
  readonly agreed?: () => Promise<boolean>;
}

/** Carries changes of one record out, unless they would bring an error. */
export async function amendWith(
  scene: Scene,
  record: Named,
  { amendments, done, agreed }: Changes,
): Promise<number> {
  const { world, opened } = scene;
  const plan = await planAmend(opened, record, amendments);
  if ('refused' in plan) return notWritten(world, plan.refused);
  if (plan.errors > 0) {
    complainOf(world, plan.problems);
    return notWritten(world, 'the book would not be sound with it');
  }
  const undo = undoOf(record, amendments);
  const words = { shown: [shownRecord(plan)], done: `${done} in ${record.file}` };
  return carryOut(scene, {
    plan,
    ...words,
    ...(undo === undefined ? {} : { undo }),
    ...(agreed ? { agreed } : {}),
  });
}

function shownRecord({ text, record }: AmendPlan): string {
  return recordIn(text, record.id);
}

/**
 * The amendment that puts single values back; undefined where more than those would change, or where
 * one holds what no command line can.
 */
function undoOf({ id, raw }: Named, amendments: readonly Amendment[]): string | undefined {
  const back = amendments.map(({ path, value }) => {
    const before = valueAt(raw, path) ?? '';
    const isSingle =
      typeof before === 'string' && (value === undefined || typeof value === 'string');
    return isSingle && !UNTYPED.test(before) ? quoted(`${path.join('.')}=${before}`) : undefined;
  });
  return back.includes(undefined) ? undefined : `amend ${id} ${back.join(' ')}`;
}

// The end of a text of C, and half a sign of UTF-16.
const UNTYPED = /[\0\p{Surrogate}]/u;
