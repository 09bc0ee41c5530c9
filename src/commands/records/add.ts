/** `saggar add KIND`: a new record, from options or from YAML on standard input. */
import { DEFINITION_KINDS, EVENT_KINDS, KINDS, type Kind } from '../../book.ts';
import { NOUN, listed } from '../../check/finding.ts';
import { nearest } from '../../nearest.ts';
import { ADDRESS_FILE } from '../../read/kinds.ts';
import { missingOptions, readOptions, type FieldOption } from '../../entry/fields.ts';
import { typedAgain } from '../../entry/given.ts';
import { mapping } from '../../read/raw.ts';
import { printed, printedLayout } from '../../render/printable.ts';
import type { AllTyped, Typed, TypedKind } from './add-typed.ts';
import type { AskedOf, CommandOf, OptionsOf } from '../catalogue.ts';
import type { Scene } from './change.ts';
import { inStudio, whileLocked } from './locked.ts';
import { refuse } from '../reports/show.ts';
import { askedDay } from '../reports/span.ts';
import { EXIT, isRefusal, mayAsk, type Refusal, type World } from '../world.ts';

/** What happens comes first: it is what is written down every day. */
const KINDS_IN_USE = [...EVENT_KINDS, ...DEFINITION_KINDS].join(', ');

/** Says that the record comes as YAML on standard input. */
const FROM_INPUT = '-';

/** Names of the options of `add` that are no fields, for did-you-mean. */
const OTHER_OPTIONS = [
  ...['lines', 'id', 'closing', 'back-to', 'no-input', 'plain', 'dry-run'],
  ...['studio', 'as-of', 'as', 'afresh', 'help'],
  ...['width', 'quiet', 'colour', 'no-colour'],
];

/** Adds records of one kind; refused ones are given back as YAML, so that nothing is typed twice. */
export const addRecords: CommandOf<'add'> = async (asked, world) => {
  const [first, ...words] = asked.words;
  const kind = KINDS.find((each) => each === first);
  if (asked.words.some((word) => word === '--help' || word === '-h')) return help(world, kind);
  if (!kind) return refuse(world, noKind(first));
  const line = { kind, words };
  const { lines, closing, backTo } = asked.options;
  if (backTo !== undefined) return putBackGiven(line, asked, world);
  if (lines !== undefined) {
    const { addListed } = await import('./add-listed.ts');
    return addListed({ file: lines, line, goOn: closing ? close : addWords }, asked, world);
  }
  return closing ? close(line, asked, world) : addWords(line, asked, world);
};

/** Adds what options say, or asks for what they leave out. */
async function addWords(line: TypedKind, asked: AskedOf<'add'>, world: World): Promise<number> {
  const { kind, words, list } = line;
  if (wantsQuestions(line, asked, world)) return ask(line, asked, world);
  const typed = await allTyped(line, asked, world);
  if (isRefusal(typed)) return refuse(world, typed);
  const day = askedDay(asked.options, world);
  const again = (): string => (typeof day === 'string' ? typedAgain(kind, typed.records, day) : '');
  const missing =
    words.length > 0 && words[0] !== FROM_INPUT
      ? typed.records.flatMap(({ fields }) => missingOptions(kind, fields))
      : [];
  if (missing.length === 0)
    return whileLocked({ asked, world }, adding({ kind, ...typed, list }), again);
  // Names all that is missing at once, and gives back what there is.
  if (typeof day !== 'string') return refuse(world, day);
  world.complain(printed`saggar: nothing was written: this ${needs(kind, missing)}\n`);
  world.complain(printedLayout(`\n${again()}`));
  return EXIT.errors;
}

function adding(typed: Typed): (scene: Scene<OptionsOf<'add'>>) => Promise<number> {
  return async (scene) => (await import('./add-typed.ts')).addTyped(scene, typed);
}

/** Somebody sits there, nothing comes on standard input, and something that is needed is missing. */
function wantsQuestions(
  { kind, words }: TypedKind,
  { options }: AskedOf<'add'>,
  world: World,
): boolean {
  if (!mayAsk(world, options) || words.includes(FROM_INPUT)) return false;
  const read = readOptions({ kind, words, others: OTHER_OPTIONS });
  if ('refused' in read) return false;
  return words.length === 0 || missingOptions(kind, read.fields).length > 0;
}

async function close(
  { kind, words, list }: TypedKind,
  asked: AskedOf<'add'>,
  world: World,
): Promise<number> {
  if (kind !== 'sales')
    return refuse(world, { refused: `--closing goes with sales: saggar add sales --closing` });
  const { closeFair } = await import('./close-fair.ts');
  return closeFair({ words, list }, asked, world);
}

async function putBackGiven(
  { kind, words }: TypedKind,
  asked: AskedOf<'add'>,
  world: World,
): Promise<number> {
  if (words.length > 0)
    return refuse(world, { refused: '--back-to takes whole records on standard input alone' });
  const { putBackLines } = await import('./put-back.ts');
  return putBackLines(kind, asked, world);
}

function ask(line: TypedKind, asked: AskedOf<'add'>, world: World): Promise<number> {
  return inStudio({ asked, world }, async (scene) => {
    const { askAndAdd } = await import('./ask-for.ts');
    return askAndAdd(scene, line, (typed, inner) =>
      inStudio({ asked, world: inner }, adding({ ...typed, list: line.list })),
    );
  });
}

/** `sale has no channel and no lines; give --channel and --line`. */
function needs(kind: Kind, missing: readonly FieldOption[]): string {
  const fields = missing.map(
    ({ path }) => `no ${path.filter((step) => typeof step === 'string').join(' ')}`,
  );
  return `${NOUN[kind]} has ${listed(fields)}; give ${listed(missing.map(({ name }) => `--${name}`))}`;
}

async function help(world: World, kind: Kind | undefined): Promise<number> {
  const { addHelp, kindsHelp } = await import('./add-help.ts');
  world.write(printedLayout(kind ? addHelp(kind, world.width) : kindsHelp(world.width)));
  return EXIT.fine;
}

function noKind(word: string | undefined): Refusal {
  if (word === undefined || word.startsWith('-'))
    return { refused: `say what to add: one of ${KINDS_IN_USE}` };
  if (word === 'buyers' || word === 'buyer')
    return {
      refused: `addresses of buyers are not in the book: write them into ${ADDRESS_FILE} in the studio, such as puddle: { name: Puddle Coffee, address: [4 Mill Lane, Pebblestoke] }`,
    };
  const byNoun = KINDS.find((kind) => NOUN[kind] === word.toLowerCase());
  const near = byNoun ?? nearest(word, KINDS);
  const hint = near === undefined ? `use one of ${KINDS_IN_USE}` : `did you mean ${near}?`;
  return { refused: `there is no kind "${word}"; ${hint}` };
}

async function allTyped(
  { kind, words }: TypedKind,
  { options: { id } }: AskedOf<'add'>,
  world: World,
): Promise<AllTyped | Refusal> {
  const [first, ...others] = words;
  const isGiven = first === FROM_INPUT;
  if (isGiven && others.length > 0)
    return { refused: 'give the fields as options or on standard input, not both' };
  if (first?.startsWith('-') === false && others.length === 0)
    return { refused: `to take a file, write saggar add ${kind} - < ${first}` };
  if (words.length > 0 && !isGiven) {
    const read = readOptions({ kind, words, others: OTHER_OPTIONS });
    return 'refused' in read ? read : { records: [{ id, fields: read.fields }], problems: [] };
  }
  if (!isGiven && world.inputIsTerminal) return noWords(kind);
  const { fromInput } = await import('./add-typed.ts');
  return fromInput(kind, await world.readInput(), id);
}

function noWords(kind: Kind): Refusal {
  const missing = missingOptions(kind, mapping([]));
  const what = missing.length > 0 ? `: without options this ${needs(kind, missing)}` : '';
  return { refused: `say what to record${what}; saggar add ${kind} --help shows how` };
}
