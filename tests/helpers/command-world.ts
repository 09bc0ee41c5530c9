/** A world for commands in tests: a folder, a day, and what was said. */
import { Buffer } from 'node:buffer';
import { carriedOut } from '../../src/commands/studio/memory-lost.ts';
import type { Asked, Command, World } from '../../src/commands/world.ts';
import { memoryForTests } from './memory.ts';

/** What a command was told: options by their long names in camelCase. */
export interface Told {
  readonly words?: readonly string[];
  readonly options?: Asked['options'];
  /** Text on standard input; without it a person sits there. */
  readonly input?: string;
  /** The folder that the command is run in, when it is not the studio. */
  readonly from?: string;
  readonly today?: string;
  /** Whether what is written goes to a terminal. */
  readonly isTerminal?: boolean;
  /** That of the tests when left out. */
  readonly environment?: World['environment'];
  /** Where things are remembered: the place of the tests when left out. */
  readonly memory?: World['memory'] | 'none';
}

/** What a command said and how it ended. */
export interface Said {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command in a folder, as the command line would. */
export async function run(command: Command<never>, folder: string, told: Told = {}): Promise<Said> {
  const said = { out: '', err: '' };
  const { words = [], options = {}, input, memory = memoryForTests() } = told;
  const world: World = {
    folder: told.from ?? folder,
    today: told.today ?? '2026-05-01',
    width: 80,
    outputIsTerminal: told.isTerminal === true,
    colour: false,
    stamp: '',
    version: '0.0.0',
    ...(memory === 'none' ? {} : { memory }),
    environment: told.environment ?? process.env,
    write: (text) => {
      said.out += text;
    },
    complain: (text) => {
      said.err += text;
    },
    inputIsTerminal: input === undefined,
    readInput: () => Promise.resolve(Buffer.from(input ?? '')),
    random: () => 0,
    writer: { pid: process.pid, host: 'here', isRunning: () => true, timeOf: String },
  };
  const status = await carriedOut(
    command as Command,
    { argument: words[0], words, options },
    world,
  );
  return { status, ...said };
}
