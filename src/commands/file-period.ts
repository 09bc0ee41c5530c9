/** `saggar quarter PERIOD --filed`: writes what was filed for a period, as the book has it now. */
import { planAdd } from '../entry/add.ts';
import { addDays, isDay } from '../number/date.ts';
import { moneyText, type Money } from '../number/money.ts';
import { mapping } from '../read/raw.ts';
import { digitsOf } from '../reckon/booked.ts';
import { nameOfLine, sheetLines } from '../reckon/filed.ts';
import { flow } from '../reckon/flow.ts';
import type { TaxPeriod } from '../reckon/tax-period.ts';
import type { TaxLine, TaxSheet } from '../reckon/tax-sheet.ts';
import { taxView } from '../reckon/tax-view.ts';
import { printed } from '../render/printable.ts';
import { amountText } from '../report/day-words.ts';
import { wordsFor } from './add-words.ts';
import { carryOut, complainOf } from './change.ts';
import { whileLocked } from './locked.ts';
import { openFiles, type OpenedFiles } from './open.ts';
import { refuse } from './show.ts';
import { askedBasis, askedPeriod, chosenSheet } from './tables/quarter.ts';
import type { World } from './world.ts';
import { EXIT, isRefusal, textOption, type Asked, type Command, type Refusal } from './world.ts';
import { notWritten } from './writer.ts';

/** Shows each line of the period's sheet, and writes them as they were filed. */
export const filePeriod: Command = (asked, world) =>
  whileLocked(asked, world, { run: (inner) => fileAsked(asked, inner) });

/** What is to be filed. */
interface Filing {
  readonly day: string;
  readonly period: TaxPeriod;
  readonly sheet: TaxSheet;
  readonly lines: readonly (readonly [TaxLine, Money])[];
}

async function fileAsked(asked: Asked, world: World): Promise<number> {
  const opened = await openFiles(asked, world);
  if (isRefusal(opened)) return refuse(world, opened);
  const filing = await filingOf(opened, asked, world);
  if (isRefusal(filing)) return refuse(world, filing);
  const records = [{ id: undefined, fields: fieldsOf(filing, opened) }];
  const plan = await planAdd(opened, { kind: 'filed', records, random: world.random });
  if ('refused' in plan) return notWritten(world, plan.refused);
  if (plan.errors > 0) {
    complainOf(world, plan.problems);
    return notWritten(world, 'the book would not be sound with it');
  }
  const words = { ...wordsFor(plan.added), shown: [shownLines(filing, opened)] };
  const status = await carryOut({ asked, world, opened }, { plan, ...words });
  if (status === EXIT.fine && asked.options['dryRun'] !== true)
    sayHowToClose(filing, opened, world);
  return status;
}

async function filingOf(
  opened: OpenedFiles,
  asked: Asked,
  world: World,
): Promise<Filing | Refusal> {
  const day = textOption(asked, 'on') ?? opened.asOf;
  if (!isDay(day)) return { refused: `--on takes a day such as 2026-03-08, and not "${day}"` };
  const period = periodToFile(opened, asked, day);
  if (isRefusal(period)) return period;
  const chosen = await chosenSheet(opened, asked, { world, period });
  if (isRefusal(chosen)) return chosen;
  const { sheet } = chosen;
  const refusal = unfit(opened, asked, { period, sheet });
  if (refusal) return refusal;
  const { book, asOf } = opened;
  const amounts = sheetLines(taxView(book, flow(book, asOf)), { period, sheet });
  const lines = sheet.lines.flatMap((line) => {
    const amount = amounts.get(line.key);
    return amount === undefined ? [] : [[line, amount] as const];
  });
  return { day, period, sheet, lines };
}

function periodToFile(opened: OpenedFiles, asked: Asked, day: string): TaxPeriod | Refusal {
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
  { book, errors }: OpenedFiles,
  asked: Asked,
  { period, sheet }: Pick<Filing, 'period' | 'sheet'>,
): Refusal | undefined {
  if (errors > 0)
    return { refused: 'the book has errors, so its figures may lack something. Run: saggar check' };
  const { basis: own = 'cash' } = book.studio;
  const basis = askedBasis(asked);
  if (typeof basis === 'object') return basis;
  if (basis !== undefined && basis !== own)
    return {
      refused: `what is filed goes by the studio's basis, which is ${own}; basis in studio.yaml sets it`,
    };
  if (asked.options['sheet'] !== undefined || (sheet.years?.includes(period.year) ?? true))
    return undefined;
  return {
    refused: `there is no sheet for ${period.year}: ${sheet.id} is for ${sheet.years?.join(', ') ?? ''}; name the one that was filed with --sheet`,
  };
}

function fieldsOf(
  { day, period, sheet, lines }: Filing,
  { book }: OpenedFiles,
): ReturnType<typeof mapping> {
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
function sayHowToClose({ period }: Filing, { book }: OpenedFiles, world: World): void {
  const { closedThrough = '' } = book.studio;
  if (closedThrough >= period.to) return;
  world.write(
    printed`The book is not closed through ${period.to} yet. To close it, write in studio.yaml: closed-through: ${period.to}\n`,
  );
}
