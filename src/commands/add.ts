/** `saggar add KIND`: a new record, from options or from YAML on standard input. */
import { DEFINITION_KINDS, EVENT_KINDS, KINDS, type Kind } from '../book.ts';
import { NOUN, listed } from '../check/finding.ts';
import { nearest } from '../check/nearest.ts';
import { mapping } from '../entry/at-path.ts';
import { planAdd, type AddPlan } from '../entry/add.ts';
import { typedAgain } from '../entry/echo.ts';
import { expandRecord, type Ground } from '../entry/expand.ts';
import { inOptions, inText, typedProblems } from '../entry/faults.ts';
import { readGiven, STANDARD_INPUT, withoutMark, type GivenRecord } from '../entry/given.ts';
import type { FieldOption } from '../entry/fields.ts';
import { lexiconOf } from '../entry/lexicon.ts';
import { readOptions } from '../entry/options.ts';
import { missingOptions } from '../entry/questions/missing.ts';
import type { Problem } from '../problem.ts';
import { locate } from '../read/place.ts';
import { decodeText } from '../read/text.ts';
import { addHelp, kindsHelp } from './add-help.ts';
import { carryOut, complainOf, notWritten, type Scene } from './change.ts';
import { openFiles } from './open.ts';
import { refuse } from './show.ts';
import {
  EXIT,
  isRefusal,
  textOption,
  type Asked,
  type Command,
  type Refusal,
  type World,
} from './world.ts';

/** What happens comes first: it is what is written down every day. */
const KINDS_IN_USE = [...EVENT_KINDS, ...DEFINITION_KINDS].join(', ');

/** Names of the options of `add` that are no fields, for did-you-mean. */
const OTHER_OPTIONS = ['record', 'id', 'no-input', 'dry-run', 'studio', 'as-of', 'help'];

/** Adds records of one kind; refused ones are given back as YAML, so that nothing is typed twice. */
export const add: Command = async (asked, world) => {
  const [first, ...words] = asked.words;
  const kind = KINDS.find((each) => each === first);
  if (asked.words.includes('--help')) return help(world, kind);
  if (!kind) return refuse(world, noKind(first));
  if (wantsQuestions({ kind, words }, asked, world)) return ask({ kind, words }, asked, world);
  const typed = await typedRecords({ kind, words }, asked, world);
  if (isRefusal(typed)) return refuse(world, typed);
  const missing = words.length > 0 ? missingIn(kind, typed.records) : [];
  if (missing.length > 0) return lacking({ kind, ...typed }, missing, world);
  const opened = await openFiles(asked, world);
  if (isRefusal(opened)) return refuse(world, opened);
  return addTyped({ asked, world, opened }, { kind, ...typed });
};

/** A kind, and the options and values behind it. */
interface Line {
  readonly kind: Kind;
  readonly words: readonly string[];
}

/** Somebody sits there, nothing comes on standard input, and something that is needed is missing. */
function wantsQuestions({ kind, words }: Line, { options }: Asked, world: World): boolean {
  if (!world.openScreen || options['input'] === false || options['record'] !== undefined)
    return false;
  const read = readOptions({ kind, words, others: OTHER_OPTIONS });
  if ('refused' in read) return false;
  return words.length === 0 || missingOptions(kind, read.fields).length > 0;
}

async function ask({ kind, words }: Line, asked: Asked, world: World): Promise<number> {
  const opened = await openFiles(asked, world);
  if (isRefusal(opened)) return refuse(world, opened);
  const { askAndAdd } = await import('./ask-add.ts');
  const given = { kind, words, id: textOption(asked, 'id') };
  return askAndAdd({ asked, world, opened }, given);
}

function missingIn(kind: Kind, records: readonly GivenRecord[]): readonly FieldOption[] {
  return records.flatMap(({ fields }) => missingOptions(kind, fields));
}

/** Names all that is missing at once, and gives back what there is. */
function lacking(typed: TypedOfKind, missing: readonly FieldOption[], world: World): number {
  const { kind, records } = typed;
  world.complain(`saggar: nothing was written: this ${needs(kind, missing)}\n`);
  world.complain(`\n${typedAgain(kind, records)}`);
  return EXIT.errors;
}

/** `sale has no channel and no lines; give --channel and --line`. */
function needs(kind: Kind, missing: readonly FieldOption[]): string {
  const fields = missing.map(({ path }) => `no ${path.filter(isName).join(' ')}`);
  return `${NOUN[kind]} has ${listed(fields)}; give ${listed(missing.map(({ name }) => `--${name}`))}`;
}

function isName(step: string | number): step is string {
  return typeof step === 'string';
}

function help(world: World, kind: Kind | undefined): number {
  world.write(kind ? addHelp(kind, world.width) : kindsHelp(world.width));
  return EXIT.fine;
}

function noKind(word: string | undefined): Refusal {
  if (word === undefined || word.startsWith('-'))
    return { refused: `say what to add: one of ${KINDS_IN_USE}` };
  const byNoun = KINDS.find((kind) => NOUN[kind] === word.toLowerCase());
  const near = byNoun ?? nearest(word, KINDS);
  const hint = near === undefined ? `use one of ${KINDS_IN_USE}` : `did you mean ${near}?`;
  return { refused: `there is no kind "${word}"; ${hint}` };
}

/** What was typed or given, before a word of it is understood. */
export interface Typed {
  readonly records: readonly GivenRecord[];
  readonly problems: readonly Problem[];
  /** The text on standard input, where the records come from it. */
  readonly text?: string;
}

async function typedRecords(
  { kind, words }: { readonly kind: Kind; readonly words: readonly string[] },
  asked: Asked,
  world: World,
): Promise<Typed | Refusal> {
  const record = textOption(asked, 'record');
  const id = textOption(asked, 'id');
  if (record !== undefined && record !== '-')
    return { refused: '--record takes - for standard input; to take a file, write < FILE' };
  if (record === '-' && words.length > 0)
    return { refused: 'give the fields as options or on standard input, not both' };
  if (words.length > 0) return fromOptions(kind, words, id);
  if (record === undefined && world.inputIsTerminal) return noWords(kind);
  return fromInput(kind, await world.readInput(), id);
}

function noWords(kind: Kind): Refusal {
  const missing = missingOptions(kind, mapping([]));
  const what = missing.length > 0 ? `: without options this ${needs(kind, missing)}` : '';
  return { refused: `say what to write down${what}; saggar add ${kind} --help shows how` };
}

function fromOptions(
  kind: Kind,
  words: readonly string[],
  id: string | undefined,
): Typed | Refusal {
  const read = readOptions({ kind, words, others: OTHER_OPTIONS });
  return 'refused' in read ? read : { records: [{ id, fields: read.fields }], problems: [] };
}

async function fromInput(
  kind: Kind,
  bytes: Uint8Array,
  id: string | undefined,
): Promise<Typed | Refusal> {
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
  if (problems.length > 0) return giveBack(world, typed, problems);
  const records = expanded.map(({ record }) => record);
  const plan = await planAdd(opened, { kind, records, random: world.random });
  if ('refused' in plan) {
    world.complain(typedAgain(kind, records));
    return notWritten(world, plan.refused);
  }
  if (plan.errors > 0) return giveBack(world, { ...typed, records }, plan.problems);
  return carryOut(scene, {
    plan,
    ...wordsFor(plan),
    typed: typedAgain(kind, records),
    ...(typed.agreed ? { agreed: typed.agreed } : {}),
  });
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

function giveBack(world: World, typed: TypedOfKind, problems: readonly Problem[]): number {
  complainOf(world, problems);
  if (typed.records.length > 0) world.complain(`\n${typedAgain(typed.kind, typed.records)}`);
  return EXIT.errors;
}

function wordsFor({ added }: AddPlan): {
  readonly shown: readonly string[];
  readonly done: string;
  readonly undo: string;
} {
  const files = [...new Set(added.map(({ file }) => file))];
  const ids = added.map(({ id }) => id);
  return {
    shown: added.map(({ text }) => text),
    done: `Added ${ids.join(', ')} to ${files.join(', ')}`,
    undo:
      ids.length === 1
        ? `remove ${ids.join(' ')}`
        : ids.map((id) => `remove ${id}`).join(' && saggar '),
  };
}
