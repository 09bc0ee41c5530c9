/** Understands a command line that is still being typed. */

import { flagOf, valueName, type CommandSpec, type OptionSpec } from '../spec.ts';

/** The commands that there are, and the options that one takes on a line; of no command yet when it is undefined. */
interface Commands {
  readonly commands: readonly CommandSpec[];
  readonly optionsOf: (
    command: CommandSpec | undefined,
    line: Pick<TypedLine, 'words' | 'given'>,
  ) => readonly OptionSpec[];
}

/** A line up to the cursor. */
export interface TypedLine {
  readonly command: CommandSpec | undefined;
  /** What stands after the command and is neither an option nor its value. */
  readonly words: readonly string[];
  /** The options that the command takes. */
  readonly options: readonly OptionSpec[];
  /** Options that were typed before the cursor, with their values, the last of each. */
  readonly given: ReadonlyMap<string, string>;
  /** The word at the cursor, without an option that is joined to it by `=`. */
  readonly current: string;
  /** What stands before it in the same word: `--as=`, or nothing. */
  readonly joined: string;
  /** The option whose value the current word is. */
  readonly waiting: OptionSpec | undefined;
}

/** The line of these words, the last of which is at the cursor. */
export function typedLine(typed: readonly string[], known: Commands): TypedLine {
  const state: LineState = { known, words: [], given: new Map() };
  for (const word of typed.slice(0, -1)) takePart(state, word);
  return atCursor(state, typed.at(-1) ?? '');
}

interface LineState {
  readonly known: Commands;
  command?: CommandSpec;
  readonly words: string[];
  readonly given: Map<string, string>;
  waiting?: OptionSpec | undefined;
}

function takePart(state: LineState, word: string): void {
  const { waiting } = state;
  if (waiting) {
    state.given.set(flagOf(waiting), word);
    state.waiting = undefined;
  } else if (word.startsWith('-')) takeOption(state, word);
  else takeWord(state, word);
}

function takeOption(state: LineState, word: string): void {
  const [flag = '', ...value] = word.split('=');
  state.given.set(flag, value.join('='));
  const option = findOption(state, flag);
  if (option && valueName(option) !== undefined && value.length === 0) state.waiting = option;
}

function takeWord(state: LineState, word: string): void {
  const command = state.known.commands.find(({ name }) => name === word);
  if (state.command) state.words.push(word);
  else if (command) state.command = command;
}

function optionsOf({ known, command, words, given }: LineState): readonly OptionSpec[] {
  return known.optionsOf(command, { words, given });
}

function findOption(state: LineState, flag: string): OptionSpec | undefined {
  return optionsOf(state).find((option) => flagOf(option) === flag || option.also === flag);
}

function atCursor(state: LineState, word: string): TypedLine {
  const { command, words, given, waiting } = state;
  const line = { command, words, given, options: optionsOf(state) };
  if (waiting) return { ...line, current: word, joined: '', waiting };
  const [joined = '', flag = ''] = /^(--[^=]+)=/.exec(word) ?? [];
  const option = findOption(state, flag);
  if (option === undefined || valueName(option) === undefined)
    return { ...line, current: word, joined: '', waiting: undefined };
  return { ...line, current: word.slice(joined.length), joined, waiting: option };
}
