/** Writes down records that were typed, after a look at the whole book. */
import type { Book, Kind } from '../../book.ts';
import { NOUN } from '../../check/finding.ts';
import { planAdd, type AddPlan } from '../../entry/add.ts';
import type { EntryGround } from '../../entry/defaults.ts';
import { expandRecord } from '../../entry/expand.ts';
import { inOptions, inText, typedProblems } from '../../entry/faults.ts';
import {
  STANDARD_INPUT,
  readGiven,
  typedAgain,
  withoutMark,
  type GivenRecord,
} from '../../entry/given.ts';
import type { LineList } from '../../entry/line-list.ts';
import { problemsInList } from '../../entry/list-problems.ts';
import { lexiconOf } from '../../entry/lexicon.ts';
import { openFaults } from '../../entry/which-ware.ts';
import type { OpenedStudio } from '../../entry/plan.ts';
import { undoAdded } from '../../entry/undoing/undo.ts';
import type { Problem } from '../../problem.ts';
import { locate } from '../../read/place.ts';
import { decodeText } from '../../read/text.ts';
import { printed, printedLayout } from '../../render/printable.ts';
import { carryOut, complainOf, type Agreed, type DueChange, type Scene } from './change.ts';
import { EXIT, type Refusal } from '../world.ts';
import { notWritten } from './writer.ts';

/** What was typed or given, before a word of it is understood. */
export interface AllTyped {
  readonly records: readonly GivenRecord[];
  readonly problems: readonly Problem[];
  /** The text on standard input, where the records come from it. */
  readonly text?: string;
  /** The list that lines of the record come from. */
  readonly list?: LineList | undefined;
}

/** A kind, and the options and values after it. */
export interface TypedKind {
  readonly kind: Kind;
  readonly words: readonly string[];
  /** Where some of the values come from. */
  readonly list?: LineList;
}

/** The same, of one kind. */
export interface Typed extends AllTyped {
  readonly kind: Kind;
  readonly agreed?: Agreed;
}

/** Makes whole records of what was typed, and writes them unless they would bring an error. */
export async function addTyped(scene: Scene, typed: Typed): Promise<number> {
  const { world, opened } = scene;
  const { kind } = typed;
  const { book, asOf } = opened;
  const ground = { lexicon: lexiconOf(opened.reading.files), day: asOf, book };
  const refused = problemsInList(opened, typed);
  if (refused.length > 0) return giveBack(scene, typed, refused);
  const expanded = typed.records.map((record) => expandOne(typed, record, ground));
  const problems = [...typed.problems, ...expanded.flatMap((each) => each.problems)];
  if (problems.length > 0) return giveBack(scene, typed, problems);
  const records = expanded.map(({ record }) => record);
  const plan = await planAdd(opened, { kind, records, random: world.random });
  const again = typedAgain(kind, records, opened.asOf);
  if ('refused' in plan) {
    world.complain(printedLayout(again));
    return notWritten(world, plan.refused);
  }
  if (plan.errors > 0) {
    if (plan.elsewhere) world.complain(printed`${elsewhereWith(kind, records)}\n`);
    return giveBack(scene, { ...typed, records }, plan.problems);
  }
  return carryOut(scene, { plan, ...wordsFor(opened, plan), typed: again, agreed: typed.agreed });
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
  { kind, text }: Typed,
  record: GivenRecord,
  ground: EntryGround & { readonly book: Book },
): { readonly record: GivenRecord; readonly problems: readonly Problem[] } {
  const { fields, faults: unread } = expandRecord(kind, record.fields, ground);
  const placeOf = text === undefined ? inOptions(kind) : inText(text, record.id);
  // Whole records may be of a time when nobody can say any more which it was.
  const isAsked = unread.length === 0 && text === undefined;
  const faults = isAsked ? openFaults(ground.book, kind, { typed: record.fields, fields }) : unread;
  return {
    record: { id: record.id, fields },
    problems: faults.length > 0 ? typedProblems(faults, placeOf) : [],
  };
}

function giveBack({ world, opened }: Scene, typed: Typed, problems: readonly Problem[]): number {
  complainOf(world, problems);
  if (typed.records.length > 0)
    world.complain(printedLayout(`\n${typedAgain(typed.kind, typed.records, opened.asOf)}`));
  return EXIT.errors;
}

/** The words for it; what undoes it names the ids. */
export function wordsFor(
  opened: OpenedStudio,
  plan: AddPlan,
): Pick<DueChange, 'shown' | 'done' | 'undo'> {
  const { added } = plan;
  const files = [...new Set(added.map(({ file }) => file))];
  const ids = added.map(({ id }) => id);
  return {
    shown: added.map(({ text }) => text),
    done: `Added ${ids.join(', ')} to ${files.join(', ')}`,
    undo: () => undoAdded({ opened, plan }, ids),
  };
}

/** The records of a kind in a text, with what is wrong with it as YAML; `id` is for a single one. */
export async function fromInput(
  kind: Kind,
  bytes: Uint8Array,
  id: string | undefined,
): Promise<AllTyped | Refusal> {
  const text = decodeText(STANDARD_INPUT, Buffer.from(bytes));
  if (typeof text !== 'string') return { records: [], problems: await locate('', [text]) };
  const given = readGiven(kind, text);
  if ('refused' in given) return given;
  const problems = await locate('', given.findings);
  if (id === undefined) return { records: given.records, problems, text: withoutMark(text) };
  const [only, ...others] = given.records;
  if (!only || others.length > 0 || only.id !== undefined)
    return { refused: '--id is for a single record that has no id yet' };
  return { records: [{ id, fields: only.fields }], problems, text: withoutMark(text) };
}
