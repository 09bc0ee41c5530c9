/** `saggar add sales --closing`: ends a day at a fair by what came back and the money that is there. */
import { nearest } from '../../nearest.ts';
import { closingOf, daySale, type Closing, type DaySale } from '../../entry/closing/closing.ts';
import { wareName, type FairDay } from '../../entry/closing/count.ts';
import {
  decide,
  missingInLots,
  planClosing,
  type ClosingPlan,
  type Fates,
} from '../../entry/closing/decide.ts';
import {
  WARE_OPTIONS,
  readAmount,
  readWare,
  type SaidLines,
  type WareOption,
} from '../../entry/closing/said.ts';
import { closingLines, leftLines } from '../../entry/closing/words.ts';
import { inWord, typedProblems } from '../../entry/faults.ts';
import { givenOptions, type GivenOption } from '../../entry/fields.ts';
import { recordIn } from '../../entry/given.ts';
import { placeInList, type LineList } from '../../entry/line-list.ts';
import { lexiconOf, type Lexicon } from '../../entry/lexicon.ts';
import type { TypedFault } from '../../entry/expand.ts';
import type { Place } from '../../problem.ts';
import type { OpenedStudio } from '../../entry/plan.ts';
import { undoAdded, undoAmended } from '../../entry/undoing/undo.ts';
import { NO_MONEY, type Money } from '../../number/money.ts';
import { mapping, type RawMap } from '../../read/raw.ts';
import { printed, printedLines } from '../../render/printable.ts';
import type { AskedOf, OptionsOf } from '../catalogue.ts';
import { carryOut, complainOf, type Agreed, type DueChange, type Scene } from './change.ts';
import { askedFairDay } from './fair-day.ts';
import { inStudio, whileLocked } from './locked.ts';
import { CLOSING_OPTIONS } from '../record-commands.ts';
import { refuse } from '../reports/show.ts';
import { flagOf } from '../spec.ts';
import { say } from './told.ts';
import { EXIT, isRefusal, mayAsk, type Refusal, type World } from '../world.ts';
import { notWritten } from './writer.ts';

/** What was said at the end of the day: the options by name, in their order. */
export type SaidOptions = ReadonlyMap<string, readonly string[]>;

type AddOptions = OptionsOf<'add'>;

/** Ends the day by the options, or on a terminal by questions where no option says what came back. */
export async function closeFair(
  { words, list }: { readonly words: readonly string[]; readonly list?: LineList | undefined },
  asked: AskedOf<'add'>,
  world: World,
): Promise<number> {
  const said = saidOptions(words);
  if (isRefusal(said)) return refuse(world, said);
  const isTold = (['back', 'sold', 'missing'] as const).some((option) => said.has(option));
  if (isTold || !mayAsk(world, asked.options))
    return whileLocked({ asked, world }, (scene) => closeBy({ ...scene, list }, said));
  return inStudio({ asked, world }, async (scene) => {
    const at = dayIn(scene, said);
    if (isRefusal(at)) return refuse(world, at);
    const { askAndClose } = await import('./ask-for.ts');
    return askAndClose(scene, {
      at,
      said,
      saleOf: (all) => saleSoFar({ scene, at, said: all }),
      close: (all, inner, agreed) =>
        inStudio({ asked, world: inner }, (again) => closeBy(again, all, agreed)),
    });
  });
}

const NAMES = CLOSING_OPTIONS.map((option) => flagOf(option).slice(2));

function saidOptions(words: readonly string[]): SaidOptions | Refusal {
  const given = givenOptions(words);
  if ('refused' in given) return given;
  const said = new Map<string, readonly string[]>();
  for (const { name, value } of given) {
    const refusal = faultOf({ name, value }, said);
    if (refusal) return refusal;
    said.set(name, [...(said.get(name) ?? []), (value ?? '').trim()]);
  }
  return said;
}

function faultOf({ name, value }: GivenOption, said: SaidOptions): Refusal | undefined {
  if (!NAMES.includes(name)) {
    const near = nearest(name, NAMES);
    const hint = near === undefined ? 'see saggar add sales --help' : `did you mean --${near}?`;
    return { refused: `the end of a fair day has no option --${name}; ${hint}` };
  }
  const isWare = WARE_OPTIONS.some((option) => option === name);
  if (value === undefined) return { refused: `--${name} needs a value` };
  if (!isWare && said.has(name))
    return { refused: `--${name} is given twice; keep one of the two` };
  return undefined;
}

function dayIn({ opened }: Scene<AddOptions>, said: SaidOptions): FairDay | Refusal {
  const [fair, date] = [said.get('fair')?.[0], said.get('date')?.[0]];
  return askedFairDay(opened, { fair, date });
}

/** Ends the day by options alone. */
async function closeBy(
  scene: Scene<AddOptions> & { readonly list?: LineList | undefined },
  said: SaidOptions,
  agreed?: Agreed,
): Promise<number> {
  const { world, opened, list } = scene;
  const at = dayIn(scene, said);
  if (isRefusal(at)) return refuse(world, at);
  const lexicon = lexiconOf(opened.reading.files);
  const lines = readLines(said, lexicon);
  const faults = WARE_OPTIONS.flatMap((option) => lines[option].faults);
  complainOf(
    world,
    typedProblems(faults, (fault) => placeOfWare(fault, list)),
  );
  if (faults.length > 0) return EXIT.errors;
  const found = { scene, lexicon, at, said };
  const closing = lookAtDay(found, lines);
  if (isRefusal(closing)) return refuse(world, closing);
  say(scene, printedLines(closingLines(opened.book, closing)));
  const fates = decide(closing.gone, lines);
  if (isRefusal(fates)) return refuse(world, fates);
  return writeDay({ ...found, closing, fates, agreed });
}

function placeOfWare(fault: TypedFault, list: LineList | undefined): Place {
  const [option = '', turn] = fault.path;
  const sentence = { option: String(option), turn: Number(turn) };
  return (list && placeInList(list, sentence, fault)) ?? inWord(`--${option}`, fault);
}

/** The sale as far as it is told; undefined where nothing is sold yet, or something is refused. */
function saleSoFar(day: Omit<SaidDay, 'lexicon'>): RawMap | undefined {
  const found = { ...day, lexicon: lexiconOf(day.scene.opened.reading.files) };
  const lines = readLines(day.said, found.lexicon);
  const closing = lookAtDay(found, lines);
  const fates = isRefusal(closing) ? closing : decide(closing.gone, lines);
  if (isRefusal(closing) || isRefusal(fates)) return undefined;
  const sale = saleOfDay({ ...found, closing, fates });
  return sale && !isRefusal(sale) ? sale.fields : undefined;
}

type Lines = Readonly<Record<WareOption, SaidLines>>;

function readLines(said: SaidOptions, lexicon: Lexicon): Lines {
  const read = (option: WareOption): SaidLines => readWare(option, said.get(option) ?? [], lexicon);
  return { took: read('took'), back: read('back'), sold: read('sold'), missing: read('missing') };
}

interface SaidDay {
  readonly scene: Scene<AddOptions>;
  readonly lexicon: Lexicon;
  readonly at: FairDay;
  readonly said: SaidOptions;
}

/** What was counted, against the book. */
function lookAtDay({ scene, lexicon, at, said }: SaidDay, lines: Lines): Closing | Refusal {
  const { book } = scene.opened;
  const refusal = unsaid(said, at);
  if (refusal) return refusal;
  const money: Record<string, Money | undefined> = {};
  for (const name of ['cash', 'float', 'card']) {
    const amount = readAmount(book, `--${name}`, said.get(name)?.[0]);
    if (typeof amount === 'object') return amount;
    money[name] = amount;
  }
  const { cash, float = NO_MONEY, card } = money;
  const took = said.has('took') ? lines.took.lines : undefined;
  return closingOf({ book, lexicon }, at, { took, back: lines.back.lines, cash, float, card });
}

function unsaid(said: SaidOptions, { fair }: FairDay): Refusal | undefined {
  if (!said.has('took') && !fair.take)
    return {
      refused: `${fair.id} does not say what it takes; say what was on the stall with --took, as in --took "24 mug"`,
    };
  if (!said.has('back'))
    return { refused: 'say what came back with --back, as in --back "9 mug", or --back none' };
  if (said.has('float') && !said.has('cash'))
    return { refused: 'say what is in the box now with --cash' };
  return undefined;
}

interface DecidedDay extends SaidDay {
  readonly closing: Closing;
  readonly fates: Fates;
  readonly agreed?: Agreed | undefined;
}

/** Writes what became of the pieces, all of it or none. */
async function writeDay(day: DecidedDay): Promise<number> {
  const { scene, lexicon, at, fates } = day;
  const { world, opened, asked } = scene;
  const { book } = opened;
  const sale = saleOfDay(day);
  if (sale && isRefusal(sale)) return refuse(world, sale);
  const lots = missingInLots({ book, lexicon }, at, fates.missing);
  if ('refused' in lots) return refuse(world, lots);
  if (!sale && lots.length === 0) return nothingToWrite(day);
  const left = fates.left.map((ware) => `${ware.count} ${wareName(ware)}`);
  say(scene, printedLines(leftLines(book, day.closing, { sale, left })));
  const writing = { sale: sale?.fields, id: asked.options.id, lots, random: world.random };
  const plan = await planClosing(opened, writing);
  if ('refused' in plan) return notWritten(world, plan.refused);
  if (plan.errors > 0) {
    complainOf(world, plan.problems);
    return notWritten(world, 'the book would not be sound with it');
  }
  return carryOut(scene, { plan, ...wordsOfPlan(opened, plan), agreed: day.agreed });
}

const OF_THE_SALE = ['discount', 'fee', 'note'] as const;

/** The sale of what was sold; undefined for none. */
function saleOfDay({
  scene,
  lexicon,
  closing,
  fates,
  said,
}: DecidedDay): DaySale | Refusal | undefined {
  const given = OF_THE_SALE.flatMap((name) => {
    const text = said.get(name)?.[0];
    return text === undefined ? [] : [[name, text] as const];
  });
  const [first] = given;
  if (fates.sold.length === 0)
    return first
      ? {
          refused: `--${first[0]} is of the sale, but no gone piece is sold; say which with --sold`,
        }
      : undefined;
  const { book } = scene.opened;
  return daySale({ book, lexicon }, closing, { lines: fates.sold, more: mapping(given) });
}

function nothingToWrite({ scene, closing, fates }: DecidedDay): number {
  const [first] = fates.left;
  const name = first ? `${first.count} ${wareName(first)}` : '';
  const what =
    closing.gone.length === 0
      ? 'There is nothing to write.'
      : `Nothing was written. Say what became of the gone pieces: --sold all, --missing all, or piece by piece, as in --sold "${name}".`;
  say(scene, printed`${what}\n`);
  return EXIT.fine;
}

function wordsOfPlan(
  opened: OpenedStudio,
  plan: ClosingPlan,
): Pick<DueChange, 'shown' | 'done' | 'undo'> {
  const { added, lots, textOf } = plan;
  const records = lots.map(({ record }) => record);
  const parts = [
    ...added.map(({ id, file }) => `Added ${id} to ${file}`),
    ...records.map(({ id, file }) => `wrote what is missing of ${id} in ${file}`),
  ];
  const done = parts.join(', ');
  const ids = added.map(({ id }) => id);
  return {
    shown: [
      ...added.map(({ text }) => text),
      ...records.map(({ id, file }) => recordIn(textOf(file), id)),
    ],
    done: done.slice(0, 1).toUpperCase() + done.slice(1),
    undo: () => [...undoAdded({ opened, plan }, ids), ...undoAmended({ opened, plan }, lots)],
  };
}
