/** The way of every report: read, check, reckon, render, write. */
import type { Table } from '../report/table.ts';
import { render, type Format } from '../render/render.ts';
import { openAnswers, type Question } from '../read/answers.ts';
import { packAnswer, unpackAnswer, type Answer } from './answer.ts';
import { findAsked, type Found } from './find-studio.ts';
import type { Opened } from './open.ts';
import { EXIT, isRefusal, textOption, type Asked, type Refusal, type World } from './world.ts';

/** Makes a report of an opened studio, or says why it can't. */
export type MakeTable = (opened: Opened, asked: Asked) => Table | Refusal;

/**
 * Shows one report. Figures are of what is sound in the book; where errors stand in the way it says so
 * on standard error and returns the status of errors.
 */
export async function showReport(
  asked: Asked,
  world: World,
  load: () => Promise<MakeTable>,
): Promise<number> {
  const found = findAsked(asked, world);
  if (isRefusal(found)) return refuse(world, found);
  const answers = openAnswers(questionOf(asked, world, found));
  const answer = unpackAnswer(answers.recall()) ?? (await newAnswer(found, { asked, world, load }));
  if (isRefusal(answer)) return refuse(world, answer);
  answers.keep(packAnswer(answer));
  world.write(await render(answer.table, renderOptions(asked, world)));
  if (answer.errors === 0) return EXIT.fine;
  world.complain(standingInTheWay(answer.errors));
  return EXIT.errors;
}

interface Unanswered {
  readonly asked: Asked;
  readonly world: World;
  readonly load: () => Promise<MakeTable>;
}

/** Reads, checks and reckons; none of that is loaded while old answers hold. */
async function newAnswer(
  found: Found,
  { asked, world, load }: Unanswered,
): Promise<Answer | Refusal> {
  const { openFound } = await import('./open.ts');
  // What the report needs is reckoned first: the rules then make do with it.
  const { flow } = await import('../reckon/flow.ts');
  const opened = await openFound(found, world, (book) => flow(book, found.asOf));
  if (isRefusal(opened)) return opened;
  const make = await load();
  const table = make(opened, asked);
  return isRefusal(table) ? table : { table, errors: opened.errors };
}

/** Options that change how a report looks or where it is looked for, and nothing in it. */
const LOOKS: ReadonlySet<string> = new Set(['as', 'studio', 'colour']);

/** All that a report depends on beside the studio's files; not how it is to look. */
function questionOf(asked: Asked, world: World, { folder, asOf }: Found): Question {
  const names = Object.keys(asked.options).filter((name) => !LOOKS.has(name));
  const options = names.sort().map((name) => [name, asked.options[name]]);
  const words = JSON.stringify([asked.command, asked.words, options, asOf]);
  return { studioDir: folder, stamp: world.stamp, words };
}

/** How the output is to look. */
export function renderOptions(
  asked: Asked,
  world: World,
): { as: Format; width: number; colour: boolean } {
  const as = (textOption(asked, 'as') ?? 'text') as Format;
  return { as, width: world.width, colour: world.colour };
}

/** Says why a command can't run. */
export function refuse(world: World, { refused }: Refusal): number {
  world.complain(`saggar: ${refused}\n`);
  return EXIT.cannotRun;
}

/** Says on standard error that figures lack what is not sound. */
export function standingInTheWay(errors: number): string {
  const [noun, verb] = errors === 1 ? ['error', 'stands'] : ['errors', 'stand'];
  return `saggar: ${errors} ${noun} ${verb} in the way, so these figures are only of what is sound. Run: saggar check\n`;
}
