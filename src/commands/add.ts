/** `saggar add KIND`: a new record, from options or from YAML on standard input. */
import { DEFINITION_KINDS, EVENT_KINDS, KINDS, type Kind } from '../book.ts';
import { NOUN, listed } from '../check/finding.ts';
import { nearest } from '../check/nearest.ts';
import { typedAgain } from '../entry/echo.ts';
import type { FieldOption } from '../entry/fields.ts';
import type { GivenRecord } from '../entry/given.ts';
import { readOptions } from '../entry/options.ts';
import { missingOptions } from '../entry/questions/missing.ts';
import { mapping } from '../read/raw.ts';
import { printed, printedLayout } from '../render/printable.ts';
import type { Typed, TypedOfKind } from './add-typed.ts';
import { whileLocked } from './locked.ts';
import { refuse } from './show.ts';
import { askedDay } from './span.ts';
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
const OTHER_OPTIONS = [
  'record',
  'id',
  'closing',
  'no-input',
  'dry-run',
  'studio',
  'as-of',
  'afresh',
  'help',
];

/** Adds records of one kind; refused ones are given back as YAML, so that nothing is typed twice. */
export const add: Command = async (asked, world) => {
  const [first, ...words] = asked.words;
  const kind = KINDS.find((each) => each === first);
  if (asked.words.includes('--help')) return help(world, kind);
  if (!kind) return refuse(world, noKind(first));
  if (asked.options['closing'] === true) return close({ kind, words }, asked, world);
  if (wantsQuestions({ kind, words }, asked, world)) return ask({ kind, words }, asked, world);
  const typed = await typedRecords({ kind, words }, asked, world);
  if (isRefusal(typed)) return refuse(world, typed);
  const missing = words.length > 0 ? missingIn(kind, typed.records) : [];
  if (missing.length > 0) return lacking({ kind, ...typed }, missing, [asked, world]);
  return addLocked({ kind, ...typed }, asked, world);
};

function addLocked(typed: TypedOfKind, asked: Asked, world: World): Promise<number> {
  const day = askedDay(asked, world);
  return whileLocked(asked, world, {
    run: (inner) => addToStudio(typed, asked, inner),
    typed: () => (typeof day === 'string' ? typedAgain(typed.kind, typed.records, day) : ''),
  });
}

async function addToStudio(typed: TypedOfKind, asked: Asked, world: World): Promise<number> {
  const { openFiles } = await import('./open.ts');
  const { addTyped } = await import('./add-typed.ts');
  const opened = await openFiles(asked, world);
  return isRefusal(opened) ? refuse(world, opened) : addTyped({ asked, world, opened }, typed);
}

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

async function close({ kind, words }: Line, asked: Asked, world: World): Promise<number> {
  if (kind !== 'sales')
    return refuse(world, { refused: `--closing goes with sales: saggar add sales --closing` });
  const { closeFair } = await import('./close-fair.ts');
  return closeFair(words, asked, world);
}

async function ask({ kind, words }: Line, asked: Asked, world: World): Promise<number> {
  const { openFiles } = await import('./open.ts');
  const opened = await openFiles(asked, world);
  if (isRefusal(opened)) return refuse(world, opened);
  const { askAndAdd } = await import('./ask-add.ts');
  const given = { kind, words, id: textOption(asked, 'id'), add: addToStudio };
  return askAndAdd({ asked, world, opened }, given);
}

function missingIn(kind: Kind, records: readonly GivenRecord[]): readonly FieldOption[] {
  return records.flatMap(({ fields }) => missingOptions(kind, fields));
}

/** Names all that is missing at once, and gives back what there is. */
function lacking(
  { kind, records }: TypedOfKind,
  missing: readonly FieldOption[],
  [asked, world]: readonly [Asked, World],
): number {
  const day = askedDay(asked, world);
  if (typeof day !== 'string') return refuse(world, day);
  world.complain(printed`saggar: nothing was written: this ${needs(kind, missing)}\n`);
  world.complain(printedLayout(`\n${typedAgain(kind, records, day)}`));
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

async function help(world: World, kind: Kind | undefined): Promise<number> {
  const { addHelp, kindsHelp } = await import('./add-help.ts');
  world.write(printedLayout(kind ? addHelp(kind, world.width) : kindsHelp(world.width)));
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
  const { fromInput } = await import('./add-input.ts');
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
