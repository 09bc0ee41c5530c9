/** The way of every report: read, check, reckon, render, write. */
import type { Table } from '../report/table.ts';
import { render, type Format } from '../render/render.ts';
import { openStudio, type Opened } from './open.ts';
import { EXIT, isRefusal, textOption, type Asked, type Refusal, type World } from './world.ts';

/** Makes a report of an opened studio, or says why it can't. */
export type MakeTable = (opened: Opened) => Table | Refusal;

/**
 * Shows one report. Figures are of what is sound in the book; where errors stand in the way it says so
 * on standard error and returns the status of errors.
 */
export async function showReport(asked: Asked, world: World, make: MakeTable): Promise<number> {
  const opened = await openStudio(asked, world);
  if (isRefusal(opened)) return refuse(world, opened);
  const table = make(opened);
  if (isRefusal(table)) return refuse(world, table);
  world.write(await render(table, renderOptions(asked, world)));
  if (opened.errors === 0) return EXIT.fine;
  world.complain(standingInTheWay(opened.errors));
  return EXIT.errors;
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

function standingInTheWay(errors: number): string {
  const [noun, verb] = errors === 1 ? ['error', 'stands'] : ['errors', 'stand'];
  return `saggar: ${errors} ${noun} ${verb} in the way, so these figures are only of what is sound. Run: saggar check\n`;
}
