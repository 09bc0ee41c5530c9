/** The way of every report: read, check, reckon, render, write. */
import type { Table } from '../report/table.ts';
import type { Format } from '../render/render.ts';
import { keptOfStudio } from '../read/answers.ts';
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
  return showAnswer(asked, world, { find: (found) => newAnswer(found, { asked, world, load }) });
}

/** How an answer is found, where none is known. */
export interface Inquiry {
  readonly find: (found: Found) => Promise<Answer | Refusal>;
  /** What it depends on beside what is asked and the studio's files. */
  readonly beside?: (found: Found) => unknown;
}

/**
 * Shows the answer that is known to what is asked, or finds it. Figures are of what is sound in the
 * book; where errors stand in the way it says so on standard error and returns the status of errors.
 */
export async function showAnswer(
  asked: Asked,
  world: World,
  { find, beside }: Inquiry,
): Promise<number> {
  const found = await findInTime(asked, world);
  if (isRefusal(found)) return refuse(world, found);
  const words = questionOf(asked, world, { ...found, beside: beside?.(found) });
  const kept = keptOfStudio(found.folder, found.store);
  const known = asAnswer(kept.recall(words), world);
  const answer = known ?? (await find({ ...found, kept }));
  if (isRefusal(answer)) return refuse(world, answer);
  // What a commit lacks here may be fetched later.
  if (!known && !(found.past && answer.errors > 0)) kept.keep(words, answer);
  world.write(answer.text);
  if (!found.past) await sayHalfDone(found.folder, world);
  if (answer.errors === 0) return EXIT.fine;
  world.complain(standingInTheWay(answer.errors));
  return EXIT.errors;
}

/** A report as it was shown, and how many errors stood in its way. */
export interface Answer {
  readonly text: Printable;
  readonly errors: number;
}

/** An answer that was kept; undefined where it is something else. */
function asAnswer(kept: unknown, look: Pick<World, 'colour'>): Answer | undefined {
  const { text, errors } = (kept ?? {}) as { readonly text?: unknown; readonly errors?: unknown };
  return typeof text === 'string' && typeof errors === 'number'
    ? { text: printedLayout(text, look), errors }
    : undefined;
}

/** The same where something has to be waited for. */
export type MakeTableLater = (...opened: Parameters<MakeTable>) => Promise<ReturnType<MakeTable>>;

/** A report that is asked for. */
export interface Unanswered {
  readonly asked: Asked;
  readonly world: World;
  readonly load: () => Promise<MakeTable | MakeTableLater>;
}

/** Reads, checks, reckons and renders; none of that is loaded while old answers hold. */
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
  const table = await make(opened, asked);
  if (isRefusal(table)) return table;
  const text = await rendered(table, opened, { asked, world });
  return { text, errors: opened.errors };
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

/** All that a report depends on beside the studio's files. */
function questionOf(
  asked: Asked,
  world: World,
  { asOf, past, beside }: Found & { readonly beside: unknown },
): string {
  const looks = renderOptions(asked, world);
  // Whatever is not for a person looks alike at every width.
  const look = looks.as === 'text' ? looks : looks.as;
  const names = Object.keys(asked.options).filter((name) => !WHERE.has(name));
  const options = names.sort().map((name) => [name, asked.options[name]]);
  // A branch moves on; its commit does not.
  const commit = past?.commit.id;
  return JSON.stringify([asked.command, asked.words, options, asOf, look, beside, commit]);
}

/** Options that say which studio is asked, and not what. */
const WHERE: ReadonlySet<string> = new Set(['studio', 'afresh']);

/** How the output is to look. */
export function renderOptions(
  asked: Asked,
  world: World,
): { as: Format; width: number; colour: boolean } {
  const as = (textOption(asked, 'as') ?? 'text') as Format;
  return { as, width: world.width, colour: world.colour };
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
