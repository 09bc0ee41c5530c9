/** Runs commands in this process on a studio, as the command line would, and keeps what they say. */
import { resolve } from 'node:path';
import { COMMANDS } from '../../src/commands/catalogue.ts';
import { loadCommand } from '../../src/commands/load.ts';
import { refuse } from '../../src/commands/reports/show.ts';
import { wrongWords } from '../../src/commands/usage.ts';
import type { Asked, World } from '../../src/commands/world.ts';
import { memoryForTests } from './memory.ts';

/** The demo studio, and the day that it is looked at. */
export const EXAMPLE = resolve(import.meta.dirname, '../../example-studio');
export const EXAMPLE_DAY = '2026-06-30';

const STAMP = `tests-${String(process.pid)}-${String(Date.now())}`;

/** What a command said and how it ended. */
export interface Ran {
  readonly status: number;
  readonly out: string;
  readonly complaints: string;
}

/** Runs one command; options by their long names, as `{ asOf: '2026-06-30' }`. */
export async function runCommand(
  name: string,
  options: Asked['options'],
  {
    argument,
    width = 80,
    folder = EXAMPLE,
    more = [],
  }: { argument?: string; width?: number; folder?: string; more?: readonly string[] } = {},
): Promise<Ran> {
  let out = '';
  let complaints = '';
  const world: World = {
    folder,
    today: EXAMPLE_DAY,
    width,
    colour: false,
    // The code may have changed since the last run, and no answer of older code may be given.
    stamp: STAMP,
    version: '0.0.0',
    memory: memoryForTests(),
    environment: process.env,
    write: (text) => void (out += text),
    complain: (text) => void (complaints += text),
    inputIsTerminal: false,
    readInput: () => Promise.resolve(new Uint8Array()),
    random: () => 0.5,
    writer: { pid: process.pid, host: 'test', isRunning: () => true, timeOf: String },
  };
  const asked = { argument, words: argument === undefined ? [] : [argument, ...more], options };
  const spec = COMMANDS.find((command) => command.name === name);
  const refusal = spec && !spec.takesFields ? wrongWords(spec, asked) : undefined;
  const run = await loadCommand(name);
  const status = refusal ? refuse(world, refusal) : await run(asked, world);
  return { status, out, complaints };
}
