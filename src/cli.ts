/** The command line: the only module that names the process; it wires words to commands. */
import { homedir, hostname } from 'node:os';
import { isatty } from 'node:tty';
import { Command as Commander, CommanderError, Option } from 'commander';
import { COMMANDS, COMPLETE_WORDS } from './commands/catalogue.ts';
import { commandHelp, generalHelp } from './commands/help.ts';
import { loadCommand } from './commands/load.ts';
import { carriedOut } from './commands/studio/memory-lost.ts';
import { EVERYWHERE } from './commands/options.ts';
import type { CommandSpec, OptionSpec } from './commands/spec.ts';
import { missingValue, unknownCommand, unknownOption, wrongWords } from './commands/usage.ts';
import {
  EXIT,
  type Asked,
  type Lines,
  type Refusal,
  type Screen,
  type World,
} from './commands/world.ts';
import { memoryPlace, stateFolder, type Home } from './home.ts';
import { openOutput, type Output } from './output.ts';
import { printed, printedLayout } from './render/printable.ts';

/** Filled in by the build. */
declare const SAGGAR_VERSION: string;
declare const SAGGAR_STAMP: string;

const USUAL_WIDTH = 80;

/** Runs what was typed and sets the exit status; no failure shows a stack trace. */
async function main(): Promise<void> {
  const output = openOutput({
    out: process.stdout,
    err: process.stderr,
    exitWith: (status) => (process.exitCode = status),
    running: () => process.uptime(),
  });
  output.end(await statusOfRun(output));
}

async function statusOfRun(output: Output): Promise<number> {
  try {
    const run: Run = { status: EXIT.fine };
    await programFor(worldOf(output), run).parseAsync(process.argv);
    return run.status;
  } catch (error) {
    return statusOf(error, output);
  }
}

/** The status that a command came to. */
interface Run {
  status: number;
}

/** The status of what ended a run; says what it was, unless help or the version was asked for. */
function statusOf(error: unknown, { complain }: Output): number {
  if (error instanceof CommanderError) {
    if (error.code === MISUSE) complain(printed`saggar: ${error.message}\n`);
    return error.exitCode === 0 ? EXIT.fine : EXIT.cannotRun;
  }
  const reason = error instanceof Error ? error.message : String(error);
  complain(
    printed`saggar: something went wrong inside the program: ${reason}\nNo file is left half written. Please report it with the command that you typed.\n`,
  );
  return EXIT.cannotRun;
}

function worldOf({ write, complain, progress, noProgress }: Output): World {
  const home = homeOf();
  const isWatched = process.stderr.isTTY && process.env['TERM'] !== 'dumb';
  return {
    folder: process.cwd(),
    today: today(),
    width: process.stdout.isTTY ? process.stdout.columns : USUAL_WIDTH,
    outputIsTerminal: process.stdout.isTTY,
    colour: wantsColour(),
    stamp: SAGGAR_STAMP,
    environment: process.env,
    memory: memoryPlace(home),
    stateFolder: stateFolder(home),
    write,
    complain,
    progress: isWatched ? progress : undefined,
    onExit,
    inputIsTerminal: isatty(0),
    openScreen: canAsk() && canDraw() ? () => openScreen(noProgress) : undefined,
    openLines: canAsk() ? () => openLines(noProgress) : undefined,
    readInput,
    random: Math.random,
    writer: { pid: process.pid, host: hostname(), uid: process.getuid?.(), isRunning, timeOf },
  };
}

function homeOf(): Home {
  return {
    environment: process.env,
    folder: homeFolder(),
    platform: process.platform,
    host: hostname(),
    user: process.getuid?.(),
    clock: Date.now,
  };
}

/** Empty where the system knows of none. */
function homeFolder(): string {
  try {
    return homedir();
  } catch {
    return '';
  }
}

/** Questions need somebody who types, and somewhere to show them. */
function canAsk(): boolean {
  return isatty(0) && process.stderr.isTTY;
}

/** Whether the terminal moves its cursor; on Windows they do without a name. */
function canDraw(): boolean {
  const { TERM = process.platform === 'win32' ? 'windows' : '' } = process.env;
  return TERM !== '' && TERM !== 'dumb';
}

async function openScreen(noProgress: () => void): Promise<Screen> {
  const { openTerminal } = await import('./terminal.ts');
  noProgress();
  return openTerminal({ input: process.stdin, output: process.stderr, onExit });
}

async function openLines(noProgress: () => void): Promise<Lines> {
  const { openTerminalLines } = await import('./lines.ts');
  noProgress();
  return openTerminalLines({ input: process.stdin, output: process.stderr, onExit });
}

const DEADLY = { SIGTERM: 143, SIGHUP: 129, SIGINT: EXIT.interrupted } as const;

/** Runs a step at the program's end, also when it is stopped from outside. */
function onExit(step: () => void): () => void {
  const stops = Object.entries(DEADLY).map(([signal, status]) => {
    const stop = (): never => process.exit(status);
    process.once(signal, stop);
    return () => process.off(signal, stop);
  });
  process.once('exit', step);
  return () => {
    process.off('exit', step);
    for (const unstop of stops) unstop();
  };
}

async function readInput(): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks);
}

/** Signal 0 only asks; a process of another user answers that it may not be asked. */
function isRunning(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

/** The calendar day where the potter is. */
function today(): string {
  return calendarDay(new Date());
}

/** A moment there, to the minute. */
function timeOf(milliseconds: number): string {
  const time = new Date(milliseconds);
  return `${calendarDay(time)} ${two(time.getHours())}:${two(time.getMinutes())}`;
}

function calendarDay(time: Date): string {
  return `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())}`;
}

function two(number: number): string {
  return String(number).padStart(2, '0');
}

/** The flag, then NO_COLOR, then FORCE_COLOR, then whether a terminal shows it. */
function wantsColour(): boolean {
  if (process.argv.includes('--no-colour')) return false;
  if (process.argv.includes('--colour')) return true;
  if (process.env['NO_COLOR']) return false;
  if (process.env['FORCE_COLOR']) return process.env['FORCE_COLOR'] !== '0';
  return process.stdout.isTTY && process.env['TERM'] !== 'dumb';
}

function programFor(world: World, run: Run): Commander {
  const program = new Commander('saggar').version(SAGGAR_VERSION, '--version').helpCommand(false);
  for (const { flags } of EVERYWHERE) if (isColour(flags)) program.option(flags);
  for (const spec of specsFor(process.argv)) program.addCommand(commandFor(spec, world, run));
  program.on('command:*', ([word = '']: string[]) => misuse(unknownCommand(word)));
  return inOurWords(program, world, undefined);
}

/** The commands that may be meant, to spare the others' making; all where none is named. */
function specsFor(words: readonly string[]): readonly CommandSpec[] {
  const all = [...COMMANDS, COMPLETE_WORDS];
  const named = all.filter(({ name }) => words.includes(name));
  return named.length === 0 ? all : named;
}

// Help and the version are commander's own options.
function isColour(flags: string): boolean {
  return flags.endsWith('colour');
}

function commandFor(spec: CommandSpec, world: World, run: Run): Commander {
  const command = new Commander(spec.name).argument('[words...]');
  for (const option of spec.options) command.addOption(optionFor(option));
  inOurWords(command, world, spec);
  if (spec.takesFields) command.allowUnknownOption().helpOption(false);
  return command.action(async () => {
    const asked = askedOf(command);
    const refusal = spec.takesFields ? undefined : wrongWords(spec, asked);
    if (refusal) misuse(refusal);
    run.status = await carriedOut(await loadCommand(spec.name), asked, world);
  });
}

/** Lets a command speak in our words: its help, and what is said of a line that it can't take. */
function inOurWords(command: Commander, world: World, spec: CommandSpec | undefined): Commander {
  return command
    .helpOption('--help')
    .configureHelp({
      formatHelp: () => (spec ? commandHelp(spec, world.width) : generalHelp(world.width)),
    })
    .configureOutput({
      writeOut: (text) => {
        world.write(printedLayout(text));
      },
      writeErr: (text) => {
        world.complain(printedLayout(text));
      },
      outputError: () => undefined,
    })
    .exitOverride((error) => {
      const refusal = refusalOf(error, spec);
      if (refusal) misuse(refusal);
      throw error;
    });
}

/** Commander tells what it stumbled over only in its message, in single quotes. */
function refusalOf(
  { code, message }: CommanderError,
  spec: CommandSpec | undefined,
): Refusal | undefined {
  const [, word = ''] = /'(.*)'/s.exec(message) ?? [];
  if (code === 'commander.unknownOption') return unknownOption(word, spec);
  if (code !== 'commander.optionMissingArgument') return undefined;
  return missingValue(spec?.options.find(({ flags }) => flags === word));
}

const MISUSE = 'saggar.misuse';

/** Ends a run that was not understood. */
function misuse({ refused }: Refusal): never {
  throw new CommanderError(EXIT.cannotRun, MISUSE, refused);
}

function optionFor({ flags, repeats }: OptionSpec): Option {
  const option = new Option(flags);
  return repeats ? option.argParser<readonly string[] | undefined>(collected) : option;
}

function collected(value: string, known: readonly string[] | undefined): readonly string[] {
  return [...(known ?? []), value];
}

function askedOf(command: Commander): Asked {
  return {
    argument: command.args[0],
    words: command.args,
    options: command.opts(),
  };
}

void main();
