/** `saggar quarter`: the tax summary of a quarter or a year, for a preparer, and what was filed of it. */
import type { Day } from '../../book.ts';
import { planAdd } from '../../entry/add.ts';
import { addDays, dayMeant } from '../../number/date.ts';
import { moneyText, type Money } from '../../number/money.ts';
import { mapping, type RawMap } from '../../read/raw.ts';
import { digitsOf } from '../../reckon/booked.ts';
import { hasFiguresFor } from '../../reckon/tax/estimated-tax.ts';
import { nameOfLine, sheetLines } from '../../reckon/tax/filed.ts';
import { flow } from '../../reckon/flow.ts';
import type { TaxPeriod } from '../../reckon/tax/tax-period.ts';
import type { TaxLine, TaxSheet } from '../../reckon/tax/tax-sheet.ts';
import { taxView } from '../../reckon/tax/tax-view.ts';
import { printed } from '../../render/printable.ts';
import { amountText } from '../../report/day/day-words.ts';
import { wordsFor } from '../records/add-typed.ts';
import type { AskedOf, CommandOf, OptionsOf } from '../catalogue.ts';
import { carryOut, complainOf, type Scene } from '../records/change.ts';
import { whileLocked } from '../records/locked.ts';
import type { OpenedFiles } from '../studio/open.ts';
import { refuse, showReport } from './show.ts';
import { notADay } from './span.ts';
import { askedPeriod, chosenSheet, quarterReport, withoutRate } from './quarter-table.ts';
import { EXIT, isRefusal, type Refusal } from '../world.ts';
import { say } from '../records/told.ts';
import { notWritten } from '../records/writer.ts';

type FilingOptions = OptionsOf<'quarter'>;

/** Shows the tax summary of the quarter that the day is in, or of the one that is asked for; or writes what was filed. */
export const quarter: CommandOf<'quarter'> = async (asked, world) => {
  const refusal = mixedUp(asked);
  if (refusal) return refuse(world, refusal);
  if (asked.options.filed) return whileLocked({ asked, world }, fileAsked);
  return showReport(asked, world, () => Promise.resolve(quarterReport(world)));
};

/** Options of showing and of writing that do not go together. */
function mixedUp({ options, argument }: AskedOf<'quarter'>): Refusal | undefined {
  const { filed, on, dryRun, as, at, taxRate } = options;
  if (filed) {
    const isForWrites = as === 'text' || as === 'json';
    const odd = Object.entries({
      [`--as ${as ?? ''}`]: isForWrites ? undefined : as,
      '--at': at,
      '--tax-rate': taxRate,
    }).find(([, value]) => value !== undefined);
    return odd && { refused: `--filed writes what was filed; leave out ${odd[0]}` };
  }
  const alone = on === undefined ? dryRun && '--dry-run' : `--on ${on}`;
  if (!alone) return undefined;
  const whole = ['saggar quarter', ...(argument === undefined ? [] : [argument]), '--filed', alone];
  return { refused: `${alone} goes with --filed, which writes what was filed: ${whole.join(' ')}` };
}

/** What is to be filed. */
interface Filing {
  readonly day: Day;
  readonly period: TaxPeriod;
  readonly sheet: TaxSheet;
  readonly lines: readonly (readonly [TaxLine, Money])[];
}

async function fileAsked(scene: Scene<FilingOptions>): Promise<number> {
  const { asked, world, opened } = scene;
  const filing = await filingOf(scene);
  if (isRefusal(filing)) return refuse(world, filing);
  const records = [{ id: undefined, fields: fieldsFiled(filing, opened) }];
  const plan = await planAdd(opened, { kind: 'filed', records, random: world.random });
  if ('refused' in plan) return notWritten(world, plan.refused);
  if (plan.errors > 0) {
    complainOf(world, plan.problems);
    return notWritten(world, 'the book would not be sound with it');
  }
  const words = { ...wordsFor(opened, plan), shown: [shownLines(filing, opened)] };
  const status = await carryOut(scene, { plan, ...words });
  if (status === EXIT.fine && !asked.options.dryRun) sayHowToClose(filing, scene);
  return status;
}

async function filingOf({ asked, world, opened }: Scene<FilingOptions>): Promise<Filing | Refusal> {
  const { book, asOf } = opened;
  const { on = asOf } = asked.options;
  const day = dayMeant(on, asOf);
  if (day === undefined) return notADay('--on', on);
  const period = periodToFile(opened, asked, day);
  if (isRefusal(period)) return period;
  const chosen = await chosenSheet(opened, asked.options, { world, period });
  if (isRefusal(chosen)) return chosen;
  const { sheet } = chosen;
  const refusal = unfit(opened, asked.options, { period, sheet });
  if (refusal) return refusal;
  const amounts = sheetLines(taxView(book, flow(book, asOf)), { period, sheet });
  const lines = sheet.lines.flatMap((line) => {
    const amount = amounts.get(line.key);
    return amount === undefined ? [] : [[line, amount] as const];
  });
  return { day, period, sheet, lines };
}

function periodToFile(
  opened: OpenedFiles,
  asked: AskedOf<'quarter'>,
  day: Day,
): TaxPeriod | Refusal {
  if (asked.argument === undefined)
    return { refused: 'say which period was filed, as in saggar quarter 2026-Q1 --filed' };
  const period = askedPeriod(opened, asked);
  if (isRefusal(period) || period.to < day) return period;
  return {
    refused: `${period.name} runs to ${period.to}, and is not over on ${day}; it can be filed from ${addDays(period.to, 1)} on`,
  };
}

/** Figures that would not be those of a filing. */
function unfit(
  opened: OpenedFiles,
  { basis, sheet: named }: FilingOptions,
  { period, sheet }: Pick<Filing, 'period' | 'sheet'>,
): Refusal | undefined {
  const { book, errors } = opened;
  if (errors > 0)
    return { refused: 'the book has errors, so its figures may lack something. Run: saggar check' };
  const { basis: own = 'cash' } = book.studio;
  if (basis !== undefined && basis !== own)
    return {
      refused: `what is filed goes by the studio's basis, which is ${own}; basis in studio.yaml sets it`,
    };
  const refusal = withoutRate(opened, sheet, period);
  if (refusal || named !== undefined || hasFiguresFor(sheet, period.year)) return refusal;
  return {
    refused: `there is no sheet for ${period.year}: ${sheet.id} is for ${sheet.years?.join(', ') ?? ''}; name the one that was filed with --sheet`,
  };
}

function fieldsFiled({ day, period, sheet, lines }: Filing, { book }: OpenedFiles): RawMap {
  const digits = digitsOf(book);
  const amounts = lines.map(([line, amount]): [string, string] => [
    nameOfLine(sheet, line),
    moneyText(amount, digits),
  ]);
  return mapping([
    ['date', day],
    ['period', period.name],
    ['sheet', sheet.id],
    ['lines', mapping(amounts)],
  ]);
}

/** The lines with their titles, as they are on the form. */
function shownLines({ day, period, sheet, lines }: Filing, { book }: OpenedFiles): string {
  const rows = lines.map(([line, amount]) => ({
    name: nameOfLine(sheet, line),
    title: line.title,
    amount: amountText(amount, digitsOf(book)),
  }));
  const [names, titles, amounts] = (['name', 'title', 'amount'] as const).map((key) =>
    Math.max(...rows.map((row) => row[key].length)),
  );
  const basis = book.studio.basis ?? 'cash';
  const head = `${sheet.title}, ${period.from} to ${period.to}, ${basis} basis, filed on ${day}`;
  const texts = rows.map(
    ({ name, title, amount }) =>
      `  ${name.padEnd(names ?? 0)}  ${title.padEnd(titles ?? 0)}  ${amount.padStart(amounts ?? 0)}`,
  );
  return [head, ...texts, ''].join('\n');
}

/** A filing closes nothing by itself. */
function sayHowToClose({ period }: Filing, scene: Scene): void {
  const { closedThrough = '' } = scene.opened.book.studio;
  if (closedThrough >= period.to) return;
  say(
    scene,
    printed`The book is not closed through ${period.to} yet. To close it, write in studio.yaml: closed-through: ${period.to}\n`,
  );
}
