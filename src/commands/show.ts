/** The way of every report: read, check, reckon, render, write. */
import type { Table } from '../report/table.ts';
import type { Format, RenderOptions } from '../render/render.ts';
import { printed, printedLayout, printedLines, type Printable } from '../render/printable.ts';
import { findInTime, type Found } from './find-studio.ts';
import type { Opened } from './open.ts';
import { EXIT, isRefusal, textOption, type Asked, type Refusal, type World } from './world.ts';
import { sayHalfDone } from './writer.ts';

/** Makes a report of an opened studio, or says why it can't. */
export type MakeTable = (opened: Opened, asked: Asked) => Table | Refusal;

/** Shows one report. */
export function showReport(
  asked: Asked,
  world: World,
  load: () => Promise<MakeTable>,
): Promise<number> {
  return showAnswer(asked, world, (found) => newAnswer(found, { asked, world, load }));
}

/** A report as it is shown, how many errors stood in its way, and what is to be kept of the way to it. */
export interface Answer {
  readonly text: Printable;
  readonly errors: number;
  readonly save: () => void;
}

/**
 * Shows the answer to what is asked. Figures are of what is sound in the book; where errors stand in the
 * way it says so on standard error and returns the status of errors.
 */
export async function showAnswer(
  asked: Asked,
  world: World,
  find: (found: Found) => Promise<Answer | Refusal>,
): Promise<number> {
  const found = await findInTime(asked, world);
  if (isRefusal(found)) return refuse(world, found);
  const answer = await find(found);
  if (isRefusal(answer)) return refuse(world, answer);
  world.write(answer.text);
  answer.save();
  if (!found.past) await sayHalfDone(found.folder, world);
  if (answer.errors === 0) return EXIT.fine;
  world.complain(standingInTheWay(answer.errors));
  return EXIT.errors;
}

/** The same where something has to be waited for. */
export type MakeTableLater = (...opened: Parameters<MakeTable>) => Promise<ReturnType<MakeTable>>;

/** A report that is asked for. */
export interface Unanswered {
  readonly asked: Asked;
  readonly world: World;
  readonly load: () => Promise<MakeTable | MakeTableLater>;
}

/** Reads, checks, reckons and renders. */
export async function newAnswer(
  found: Found,
  { asked, world, load }: Unanswered,
): Promise<Answer | Refusal> {
  const { openFound } = await import('./open.ts');
  // What the report needs is reckoned first: the rules then make do with it.
  const { flow } = await import('../reckon/flow.ts');
  const opened = await openFound(found, (book) => flow(book, found.asOf));
  if (isRefusal(opened)) return opened;
  const make = await load();
  world.progress?.(printed`Making the report`);
  const table = await make(opened, asked);
  if (isRefusal(table)) return table;
  const text = await rendered(table, opened, { asked, world });
  return { text, errors: opened.errors, save: opened.save };
}

/** Pages show more than the table, and take the most to load. */
async function rendered(
  table: Table,
  opened: Opened,
  { asked, world }: Pick<Unanswered, 'asked' | 'world'>,
): Promise<Printable> {
  const options = renderOptions(asked, world);
  if (options.as !== 'html') {
    const { render } = await import('../render/render.ts');
    return render(table, options);
  }
  const { makePage } = await import('./page.ts');
  const { renderPage } = await import('../render/html/page.ts');
  return printedLayout(renderPage(await makePage(table, opened, { asked, root: '' })));
}

/** How the output is to look. */
export function renderOptions(asked: Asked, world: World): RenderOptions {
  const as = (textOption(asked, 'as') ?? 'text') as Format;
  const { width, colour, outputIsTerminal: terminal = false } = world;
  return { as, width, colour, terminal };
}

/** Says why a command can't run; what was typed or stands in a file never acts on the terminal. */
export function refuse(world: World, { refused, more = [] }: Refusal): number {
  world.complain(printedLines([`saggar: ${refused}`, ...more]));
  return EXIT.cannotRun;
}

/** Says on standard error that figures lack what is not sound. */
export function standingInTheWay(errors: number): Printable {
  const [noun, verb] = errors === 1 ? ['error', 'stands'] : ['errors', 'stand'];
  return printed`saggar: ${errors} ${noun} ${verb} in the way, so these figures are only of what is sound. Run: saggar check\n`;
}
