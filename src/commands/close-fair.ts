/** `saggar add sales --closing`: ends a day at a fair by what came back and the money that is there. */
import { nearest } from '../check/nearest.ts';
import { closingOf, daySale, type Closing, type DaySale } from '../entry/closing/closing.ts';
import { wareName, type FairDay } from '../entry/closing/count.ts';
import { decide, type Fates } from '../entry/closing/decide.ts';
import { missingInLots } from '../entry/closing/missing.ts';
import { planClosing, type ClosingPlan } from '../entry/closing/plan.ts';
import {
  WARE_OPTIONS,
  readAmount,
  readWare,
  type SaidLines,
  type WareOption,
} from '../entry/closing/said.ts';
import { closingLines, leftLines } from '../entry/closing/words.ts';
import { inWord, typedProblems } from '../entry/faults.ts';
import { lexiconOf, type Lexicon } from '../entry/lexicon.ts';
import { givenOptions, type Given } from '../entry/options.ts';
import { recordIn } from '../entry/record-lines.ts';
import { NO_MONEY } from '../number/money.ts';
import { mapping } from '../read/raw.ts';
import { printed, printedLines } from '../render/printable.ts';
import { carryOut, complainOf, type Scene } from './change.ts';
import { CLOSING_OPTIONS } from './closing-spec.ts';
import { askedFairDay } from './fair-day.ts';
import { flagOf } from './flags.ts';
import { whileLocked } from './locked.ts';
import { openFiles } from './open.ts';
import { refuse } from './show.ts';
import { EXIT, isRefusal, textOption, type Asked, type Refusal, type World } from './world.ts';
import { notWritten } from './writer.ts';

/** What was said at the end of the day: the options by name, in their order. */
export type SaidOptions = ReadonlyMap<string, readonly string[]>;

/** Ends the day by the options, or on a terminal by questions where no option says what came back. */
export async function closeFair(
  words: readonly string[],
  asked: Asked,
  world: World,
): Promise<number> {
  const said = saidOptions(words);
  if (isRefusal(said)) return refuse(world, said);
  const isTold = (['back', 'sold', 'missing'] as const).some((option) => said.has(option));
  if (isTold || !world.openScreen || asked.options['input'] === false)
    return whileLocked(asked, world, { run: (inner) => closeBy(said, [asked, inner]) });
  const found = await findDay(said, [asked, world]);
  if (isRefusal(found)) return refuse(world, found);
  const { askAndClose } = await import('./ask-close.ts');
  return askAndClose(found.scene, { at: found.at, said, close: closeBy });
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

function faultOf({ name, value }: Given, said: SaidOptions): Refusal | undefined {
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

type Place = readonly [asked: Asked, world: World];

interface FoundDay {
  readonly scene: Scene;
  readonly lexicon: Lexicon;
  readonly at: FairDay;
}

async function findDay(said: SaidOptions, [asked, world]: Place): Promise<FoundDay | Refusal> {
  const opened = await openFiles(asked, world);
  if (isRefusal(opened)) return opened;
  const lexicon = lexiconOf(opened.reading.files);
  const [fair, date] = [said.get('fair')?.[0], said.get('date')?.[0]];
  const { book, asOf } = opened;
  const at = askedFairDay({ book, lexicon }, { fair, date, asOf });
  return isRefusal(at) ? at : { scene: { asked, world, opened }, lexicon, at };
}

/** Ends the day by options alone. */
export async function closeBy(
  said: SaidOptions,
  place: Place,
  agreed?: () => Promise<boolean>,
): Promise<number> {
  const [, world] = place;
  const found = await findDay(said, place);
  if (isRefusal(found)) return refuse(world, found);
  const { scene, lexicon, at } = found;
  const lines = readLines(said, lexicon);
  const faults = WARE_OPTIONS.flatMap((option) => lines[option].faults);
  complainOf(
    world,
    typedProblems(faults, (fault) => inWord(`--${String(fault.path[0])}`, fault)),
  );
  if (faults.length > 0) return EXIT.errors;
  const closing = lookAtDay({ ...found, said, lines });
  if (isRefusal(closing)) return refuse(world, closing);
  world.write(printedLines(closingLines(scene.opened.book, closing)));
  const fates = decide(closing.gone, lines);
  if (isRefusal(fates)) return refuse(world, fates);
  return writeDay({ scene, lexicon, at, said, closing, fates, agreed });
}

type Lines = Readonly<Record<WareOption, SaidLines>>;

function readLines(said: SaidOptions, lexicon: Lexicon): Lines {
  const read = (option: WareOption): SaidLines => readWare(option, said.get(option) ?? [], lexicon);
  return { took: read('took'), back: read('back'), sold: read('sold'), missing: read('missing') };
}

/** What was counted, against the book. */
function lookAtDay({
  scene: { opened },
  lexicon,
  at,
  said,
  lines,
}: FoundDay & { readonly said: SaidOptions; readonly lines: Lines }): Closing | Refusal {
  const { book } = opened;
  const refusal = unsaid(said, at);
  if (refusal) return refusal;
  const [cash, float, card] = ['cash', 'float', 'card'].map((name) =>
    readAmount(book, `--${name}`, said.get(name)?.[0]),
  );
  for (const amount of [cash, float, card]) if (typeof amount === 'object') return amount;
  const money = [cash, float, card].map((each) => (typeof each === 'bigint' ? each : undefined));
  const took = said.has('took') ? lines.took.lines : undefined;
  const counts = { took, back: lines.back.lines };
  const counted = { ...counts, cash: money[0], float: money[1] ?? NO_MONEY, card: money[2] };
  return closingOf({ book, lexicon }, at, counted);
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

interface Day extends FoundDay {
  readonly said: SaidOptions;
  readonly closing: Closing;
  readonly fates: Fates;
  readonly agreed: (() => Promise<boolean>) | undefined;
}

/** Writes what became of the pieces, all of it or none. */
async function writeDay(day: Day): Promise<number> {
  const { scene, lexicon, at, fates } = day;
  const { world, opened, asked } = scene;
  const { book } = opened;
  const sale = saleOfDay(day);
  if (sale && isRefusal(sale)) return refuse(world, sale);
  const lots = missingInLots({ book, lexicon }, at, fates.missing);
  if ('refused' in lots) return refuse(world, lots);
  if (!sale && lots.length === 0) return nothingToWrite(day);
  const left = fates.left.map((ware) => `${ware.count} ${wareName(ware)}`);
  world.write(printedLines(leftLines(book, day.closing, { sale, left })));
  const writing = { sale: sale?.fields, id: textOption(asked, 'id'), lots, random: world.random };
  const plan = await planClosing(opened, writing);
  if ('refused' in plan) return notWritten(world, plan.refused);
  if (plan.errors > 0) {
    complainOf(world, plan.problems);
    return notWritten(world, 'the book would not be sound with it');
  }
  const { agreed } = day;
  return carryOut(scene, { plan, ...wordsFor(plan), ...(agreed ? { agreed } : {}) });
}

const OF_THE_SALE = ['discount', 'fee', 'note'] as const;

/** The sale of what was sold; undefined for none. */
function saleOfDay({ scene, lexicon, closing, fates, said }: Day): DaySale | Refusal | undefined {
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

function nothingToWrite({ scene: { world }, closing, fates }: Day): number {
  const [first] = fates.left;
  const name = first ? `${first.count} ${wareName(first)}` : '';
  const what =
    closing.gone.length === 0
      ? 'There is nothing to write.'
      : `Nothing was written. Say what became of the gone pieces: --sold all, --missing all, or piece by piece, as in --sold "${name}".`;
  world.write(printed`${what}\n`);
  return EXIT.fine;
}

function wordsFor({ added, lots, textOf }: ClosingPlan): {
  readonly shown: readonly string[];
  readonly done: string;
  readonly undo: readonly string[];
} {
  const records = lots.map(({ record }) => record);
  const parts = [
    ...added.map(({ id, file }) => `Added ${id} to ${file}`),
    ...records.map(({ id, file }) => `wrote what is missing of ${id} in ${file}`),
  ];
  const done = parts.join(', ');
  return {
    shown: [
      ...added.map(({ text }) => text),
      ...records.map(({ id, file }) => recordIn(textOf(file), id)),
    ],
    done: done.slice(0, 1).toUpperCase() + done.slice(1),
    undo: [
      ...added.map(({ id }) => `remove ${id}`),
      ...lots.map(({ record, amendments }) =>
        ['amend', record.id, ...amendments.map(({ path }) => `${path.join('.')}=`)].join(' '),
      ),
    ],
  };
}
