/** The words of a command line, taken apart by commander, and the command that they ask for. */
import { Command as Commander, CommanderError, Option } from 'commander';
import { COMMANDS, COMPLETE_WORDS } from './commands/catalogue.ts';
import { commandHelp, generalHelp } from './commands/help.ts';
import { loadCommand } from './commands/load.ts';
import { BEFOREHAND, EVERYWHERE, HELP, type OptionsEverywhere } from './commands/options.ts';
import { allFlags, flagOf, optionKey, type CommandSpec, type OptionSpec } from './commands/spec.ts';
import { carriedOut } from './commands/studio/memory-lost.ts';
import {
  missingValue,
  unknownCommand,
  unknownOption,
  wrongWidth,
  wrongWords,
} from './commands/usage.ts';
import { EXIT, type Asked, type Refusal, type World } from './commands/world.ts';
import { printed, printedLayout } from './render/printable.ts';

/** Where a command line is carried out. */
interface Surroundings {
  readonly version: string;
  /** The world, once it is known what any command is told of it. */
  readonly worldFor: (options: OptionsEverywhere) => World;
}

/** Carries out what the words ask for, and returns the exit status. */
export async function statusOfLine(
  words: readonly string[],
  surroundings: Surroundings,
): Promise<number> {
  const line: AskedLine = { words, surroundings, status: EXIT.fine };
  try {
    await programFor(line).parseAsync(words, { from: 'user' });
    return line.status;
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    const { complain } = surroundings.worldFor({});
    if (error.code === MISUSE) complain(printed`saggar: ${error.message}\n`);
    return error.exitCode === 0 ? EXIT.fine : EXIT.cannotRun;
  }
}

/** A line that is being carried out, and the status that it came to. */
interface AskedLine {
  readonly words: readonly string[];
  readonly surroundings: Surroundings;
  status: number;
}

function programFor(line: AskedLine): Commander {
  const program = new Commander('saggar').helpCommand(false);
  const version = EVERYWHERE.find(({ flags }) => flags === '--version');
  if (version) program.version(line.surroundings.version, allFlags(version));
  // Commander takes a program's own options before a command and after it.
  for (const option of takenByProgram()) program.addOption(optionFor(option));
  for (const spec of specsFor(line.words)) program.addCommand(commandFor(spec, line));
  program.on('command:*', ([word = '']: string[]) => misuse(unknownCommand(word)));
  return inOurWords(program, line, undefined);
}

// Help and the version are commander's own.
function takenByProgram(): readonly OptionSpec[] {
  const own: ReadonlySet<string> = new Set(['--version', HELP.flags]);
  return [...BEFOREHAND, ...EVERYWHERE].filter(({ flags }) => !own.has(flags));
}

/** The commands that may be meant, to spare the others' making; all where none is named. */
function specsFor(words: readonly string[]): readonly CommandSpec[] {
  const all = [...COMMANDS, COMPLETE_WORDS];
  const named = all.filter(({ name }) => words.includes(name));
  return named.length === 0 ? all : named;
}

function commandFor(spec: CommandSpec, line: AskedLine): Commander {
  const command = new Commander(spec.name).argument('[words...]');
  const shared = new Set(takenByProgram().map(flagOf));
  for (const option of spec.options)
    if (!shared.has(flagOf(option))) command.addOption(optionFor(option));
  inOurWords(command, line, spec);
  if (spec.takesFields) command.allowUnknownOption().helpOption(false);
  return command.action(async () => {
    const asked = askedOf(command);
    const refusal =
      notTaken(spec, asked) ?? (spec.takesFields ? undefined : wrongWords(spec, asked));
    if (refusal) misuse(refusal);
    line.status = await carriedOut(await loadCommand(spec.name), asked, worldOf(command, line));
  });
}

/** An option that many commands take, and this one does not. */
function notTaken(spec: CommandSpec, { options }: Asked): Refusal | undefined {
  const own = new Set(spec.options.map(flagOf));
  const odd = BEFOREHAND.find(
    (option) => options[optionKey(option)] !== undefined && !own.has(flagOf(option)),
  );
  return odd && unknownOption(flagOf(odd), spec);
}

function worldOf(command: Commander, { surroundings }: Pick<AskedLine, 'surroundings'>): World {
  const options: OptionsEverywhere = command.optsWithGlobals();
  const { width } = options;
  if (width !== undefined && !/^[1-9]\d{0,4}$/.test(width)) misuse(wrongWidth(width));
  return surroundings.worldFor(options);
}

/** Lets a command speak in our words: its help, and what is said of a line that it can't take. */
function inOurWords(command: Commander, line: AskedLine, spec: CommandSpec | undefined): Commander {
  return command
    .helpOption(allFlags(HELP))
    .configureHelp({
      formatHelp: () => {
        const { width } = worldOf(command, line);
        return spec ? commandHelp(spec, width) : generalHelp(width);
      },
    })
    .configureOutput({
      writeOut: (text) => {
        worldOf(command, line).write(printedLayout(text));
      },
      writeErr: (text) => {
        worldOf(command, line).complain(printedLayout(text));
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
  const options = [...(spec?.options ?? []), ...takenByProgram()];
  return missingValue(options.find((option) => allFlags(option) === word));
}

/** The code of what ends a run that was not understood. */
const MISUSE = 'saggar.misuse';

function misuse({ refused }: Refusal): never {
  throw new CommanderError(EXIT.cannotRun, MISUSE, refused);
}

function optionFor(spec: OptionSpec): Option {
  const option = new Option(allFlags(spec));
  return spec.repeats ? option.argParser<readonly string[] | undefined>(collected) : option;
}

function collected(value: string, known: readonly string[] | undefined): readonly string[] {
  return [...(known ?? []), value];
}

function askedOf(command: Commander): Asked {
  return {
    argument: command.args[0],
    words: command.args,
    options: command.optsWithGlobals(),
  };
}
