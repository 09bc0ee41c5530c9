/** The command line: the only module that names the process; it wires words to commands. */
import { hostname } from 'node:os';
import { isatty } from 'node:tty';
import { Command as Commander, CommanderError, Option } from 'commander';
import { COMMANDS, type CommandSpec, type OptionSpec } from './commands/catalogue.ts';
import { EXIT, type Asked, type World } from './commands/world.ts';

/** Filled in by the build. */
declare const SAGGAR_VERSION: string;
declare const SAGGAR_STAMP: string;

const USUAL_WIDTH = 80;

/** Runs what was typed and sets the exit status; no failure shows a stack trace. */
async function main(): Promise<void> {
  process.stdout.on('error', leaveQuietly);
  try {
    await programFor(worldOf()).parseAsync(process.argv);
  } catch (error) {
    process.exitCode = statusOf(error);
  }
}

/** A reader that closed the pipe (`| head`) has what it wanted. */
function leaveQuietly(error: NodeJS.ErrnoException): void {
  process.exit(error.code === 'EPIPE' ? EXIT.fine : EXIT.cannotRun);
}

function statusOf(error: unknown): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.fine : EXIT.cannotRun;
  const reason = error instanceof Error ? error.message : String(error);
  process.stderr.write(
    `saggar: something went wrong inside the program: ${reason}\nYour files were only read. Please report it with the command that you typed.\n`,
  );
  return EXIT.cannotRun;
}

function worldOf(): World {
  return {
    folder: process.cwd(),
    today: today(),
    width: process.stdout.isTTY ? process.stdout.columns : USUAL_WIDTH,
    colour: wantsColour(),
    stamp: SAGGAR_STAMP,
    write: (text) => void process.stdout.write(text),
    complain: (text) => void process.stderr.write(text),
    inputIsTerminal: isatty(0),
    readInput,
    random: Math.random,
    writer: { pid: process.pid, host: hostname(), isRunning },
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
  const now = new Date();
  const two = (number: number): string => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** The flag, then NO_COLOR, then FORCE_COLOR, then whether a terminal shows it. */
function wantsColour(): boolean {
  if (process.argv.includes('--no-colour')) return false;
  if (process.argv.includes('--colour')) return true;
  if (process.env['NO_COLOR']) return false;
  if (process.env['FORCE_COLOR']) return process.env['FORCE_COLOR'] !== '0';
  return process.stdout.isTTY && process.env['TERM'] !== 'dumb';
}

function programFor(world: World): Commander {
  const program = new Commander('saggar')
    .description("A potter's studio ledger in plain text files.")
    .version(SAGGAR_VERSION, '--version', 'print the version')
    .option('--colour', 'colour the output even when it is not for a terminal')
    .option('--no-colour', 'never colour the output')
    .helpOption('--help', 'print help')
    .helpCommand(false)
    .showHelpAfterError('Run saggar --help to see what there is.')
    .exitOverride();
  for (const spec of COMMANDS) program.addCommand(commandFor(spec, world));
  return program;
}

function commandFor(spec: CommandSpec, world: World): Commander {
  const command = new Commander(spec.name)
    .description(`${capital(spec.about)}.`)
    .helpOption('--help', 'print help')
    .addHelpText('beforeAll', examplesOf(spec))
    .showHelpAfterError(`Run saggar ${spec.name} --help to see what it takes.`)
    .exitOverride();
  if (spec.argument) command.argument(spec.argument.form, spec.argument.about);
  if (spec.more) command.argument(spec.more.form, spec.more.about);
  for (const option of spec.options) command.addOption(optionFor(option));
  if (spec.takesFields) command.allowUnknownOption().allowExcessArguments().helpOption(false);
  return command.action(async () => {
    const run = await spec.load();
    process.exitCode = await run(askedOf(command), world);
  });
}

function optionFor({ flags, about, choices, repeats }: OptionSpec): Option {
  const option = new Option(flags, about);
  if (repeats) option.argParser<readonly string[] | undefined>(collected);
  return choices ? option.choices(choices) : option;
}

function collected(value: string, known: readonly string[] | undefined): readonly string[] {
  return [...(known ?? []), value];
}

function examplesOf(spec: CommandSpec): string {
  return ['Examples:', ...spec.examples.map((example) => `  ${example}`), ''].join('\n');
}

function askedOf(command: Commander): Asked {
  return { argument: command.args[0], words: command.args, options: command.opts() };
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

void main();
