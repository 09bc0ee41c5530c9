/** The command line: the only module that names the process; it wires words to commands. */
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
    width: (process.stdout.columns as number | undefined) ?? USUAL_WIDTH,
    colour: wantsColour(),
    stamp: SAGGAR_STAMP,
    write: (text) => void process.stdout.write(text),
    complain: (text) => void process.stderr.write(text),
  };
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
  for (const option of spec.options) command.addOption(optionFor(option));
  return command.action(async () => {
    const run = await spec.load();
    process.exitCode = await run(askedOf(command), world);
  });
}

function optionFor({ flags, about, choices }: OptionSpec): Option {
  const option = new Option(flags, about);
  return choices ? option.choices(choices) : option;
}

function examplesOf(spec: CommandSpec): string {
  return ['Examples:', ...spec.examples.map((example) => `  ${example}`), ''].join('\n');
}

function askedOf(command: Commander): Asked {
  return { argument: command.args[0], options: command.opts() };
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

void main();
