/** Writes down records that were typed, after a look at the whole book. */
import type { Kind } from '../book.ts';
import { NOUN } from '../check/finding.ts';
import { planAdd } from '../entry/add.ts';
import { typedAgain } from '../entry/echo.ts';
import { expandRecord, type Ground } from '../entry/expand.ts';
import { inOptions, inText, typedProblems } from '../entry/faults.ts';
import type { GivenRecord } from '../entry/given.ts';
import { lexiconOf } from '../entry/lexicon.ts';
import type { Problem } from '../problem.ts';
import { printed, printedLayout } from '../render/printable.ts';
import { wordsFor } from './add-words.ts';
import { carryOut, complainOf, type Scene } from './change.ts';
import { EXIT } from './world.ts';
import { notWritten } from './writer.ts';

/** What was typed or given, before a word of it is understood. */
export interface Typed {
  readonly records: readonly GivenRecord[];
  readonly problems: readonly Problem[];
  /** The text on standard input, where the records come from it. */
  readonly text?: string;
}

/** The same, of one kind. */
export interface TypedOfKind extends Typed {
  readonly kind: Kind;
  /** Asked once the records and their effect are shown: whether to write. Absent means yes. */
  readonly agreed?: () => Promise<boolean>;
}

/** Makes whole records of what was typed, and writes them unless they would bring an error. */
export async function addTyped(scene: Scene, typed: TypedOfKind): Promise<number> {
  const { world, opened } = scene;
  const { kind } = typed;
  const ground = { lexicon: lexiconOf(opened.reading.files), day: opened.asOf };
  const expanded = typed.records.map((record) => expandOne(typed, record, ground));
  const problems = [...typed.problems, ...expanded.flatMap((each) => each.problems)];
  if (problems.length > 0) return giveBack(scene, typed, problems);
  const records = expanded.map(({ record }) => record);
  const plan = await planAdd(opened, { kind, records, random: world.random });
  if ('refused' in plan) {
    world.complain(printedLayout(typedAgain(kind, records, opened.asOf)));
    return notWritten(world, plan.refused);
  }
  if (plan.errors > 0) {
    if (plan.elsewhere) world.complain(printed`${elsewhereWith(kind, records)}\n`);
    return giveBack(scene, { ...typed, records }, plan.problems);
  }
  return carryOut(scene, {
    plan,
    ...wordsFor(plan.added),
    typed: typedAgain(kind, records, opened.asOf),
    ...(typed.agreed ? { agreed: typed.agreed } : {}),
  });
}

/** An earlier day is often the cause, so it is named. */
function elsewhereWith(kind: Kind, records: readonly GivenRecord[]): string {
  const [first, ...others] = records;
  const day = first?.fields['date'];
  const what = others.length > 0 ? 'these records' : `this ${NOUN[kind]}`;
  const when = others.length === 0 && typeof day === 'string' ? ` of ${day}` : '';
  return `With ${what}${when} in the book, another record does not fit any more:`;
}

function expandOne(
  { kind, text }: TypedOfKind,
  record: GivenRecord,
  ground: Ground,
): { readonly record: GivenRecord; readonly problems: readonly Problem[] } {
  const { fields, faults } = expandRecord(kind, record.fields, ground);
  const placeOf = text === undefined ? inOptions(kind) : inText(text, record.id);
  return {
    record: { id: record.id, fields },
    problems: faults.length > 0 ? typedProblems(faults, placeOf) : [],
  };
}

function giveBack(
  { world, opened }: Scene,
  typed: TypedOfKind,
  problems: readonly Problem[],
): number {
  complainOf(world, problems);
  if (typed.records.length > 0)
    world.complain(printedLayout(`\n${typedAgain(typed.kind, typed.records, opened.asOf)}`));
  return EXIT.errors;
}
