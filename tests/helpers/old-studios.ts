/** The studios put aside with their reports: asks again. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { COMMANDS } from '../../src/commands/catalogue.ts';
import { openFound, type OpenedBook } from '../../src/commands/studio/open.ts';
import type { Report } from '../../src/commands/reports/show.ts';
import { costs } from '../../src/commands/reports/costs.ts';
import { fairs } from '../../src/commands/reports/fairs.ts';
import { firings } from '../../src/commands/reports/firings.ts';
import { galleries } from '../../src/commands/reports/galleries.ts';
import { income } from '../../src/commands/reports/income.ts';
import { losses } from '../../src/commands/reports/losses.ts';
import { materials } from '../../src/commands/reports/materials.ts';
import { pieces } from '../../src/commands/reports/pieces.ts';
import { plainQuarter } from '../../src/commands/reports/quarter-table.ts';
import { isRefusal, type Asked } from '../../src/commands/world.ts';
import { render } from '../../src/render/render.ts';
import type { Answer } from './old-answers.ts';
import { inTodaysWords } from './old-words.ts';
import { runCommand } from './studio-commands.ts';

/** Where they are; nothing in it is ever edited. */
export const OLD_STUDIOS = resolve(import.meta.dirname, '../old-studios');

/** A studio put aside: the day that it is looked at, and what was asked of it. */
export interface OldStudio {
  readonly asOf: string;
  readonly asked: readonly { readonly args: readonly string[]; readonly answer: string }[];
}

/** Reports that need no more than the book: it is opened once for all of them. */
const TABLES: Readonly<Record<string, Report<never>>> = {
  costs,
  fairs,
  firings,
  galleries,
  income,
  losses,
  materials,
  pieces,
  quarter: plainQuarter,
};

/** Every studio that was put aside, by its name. */
export function oldStudios(): Readonly<Record<string, OldStudio>> {
  return JSON.parse(readFileSync(`${OLD_STUDIOS}/asked.json`, 'utf8')) as Record<string, OldStudio>;
}

/** What the program said of the studio when it was put aside. */
export function oldAnswer(studio: string, answer: string): Answer {
  const text = readFileSync(`${OLD_STUDIOS}/${studio}/reports/${answer}`, 'utf8');
  return inTodaysWords(JSON.parse(text) as Answer);
}

/** Answers what is asked of a studio in a folder; a day's book is read and reckoned once for all that is asked of it. */
export function askingOf(
  folder: string,
  asOf: string,
): (args: readonly string[]) => Promise<Answer> {
  const books = new Map<string, Promise<OpenedBook>>();
  const bookOf = (day: string): Promise<OpenedBook> => {
    const book = books.get(day) ?? openOn(folder, day);
    books.set(day, book);
    return book;
  };
  return async (args) => {
    const asked = toldBy(args, asOf);
    const report = TABLES[asked.command];
    if (report === undefined) return answerOf(folder, asked);
    const opened = await bookOf(String(asked.options['asOf']));
    const table = await report.table(opened, asked as unknown as Asked<never>);
    if (isRefusal(table)) throw new Error(`${args.join(' ')}: ${table.refused}`);
    return JSON.parse(await render(table, { as: 'json', width: 80, colour: false })) as Answer;
  };
}

async function openOn(folder: string, asOf: string): Promise<OpenedBook> {
  const opened = await openFound({ folder, asOf, store: undefined });
  if (isRefusal(opened)) throw new Error(opened.refused);
  if (opened.errors > 0) throw new Error(`${folder} has ${opened.errors} errors`);
  return opened;
}

async function answerOf(folder: string, { command, argument, options }: Told): Promise<Answer> {
  const { status, out, complaints } = await runCommand(
    command,
    { ...options, as: 'json' },
    { folder, ...(argument === undefined ? {} : { argument }) },
  );
  if (status !== 0 || complaints !== '')
    throw new Error(`${command} ended with ${status}: ${complaints}`);
  return JSON.parse(out) as Answer;
}

/** What was asked, of which command. */
interface Told extends Asked {
  readonly command: string;
}

/** The words of a command line, as the command gets them. */
function toldBy([command = '', ...rest]: readonly string[], asOf: string): Told {
  const flags = COMMANDS.find(({ name }) => name === command)?.options ?? [];
  const options: Record<string, string | true> = { asOf };
  let argument: string | undefined;
  for (let at = 0; at < rest.length; at += 1) {
    const word = rest[at] ?? '';
    const takesValue = flags.some((option) => option.flags.startsWith(`${word} <`));
    if (!word.startsWith('--')) argument = word;
    else options[keyOf(word)] = takesValue ? (rest[(at += 1)] ?? '') : true;
  }
  // One gallery was told delivery by delivery, which has to be asked for now.
  if (command === 'galleries' && argument !== undefined) options['history'] = true;
  return { command, argument, words: argument === undefined ? [] : [argument], options };
}

function keyOf(flag: string): string {
  return flag.slice(2).replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
}
