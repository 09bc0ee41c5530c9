/** Answers how a command line can go on: commands, options and their choices, folders, and ids of the book. */
import { KINDS, type Kind } from '../book.ts';
import { NOUN } from '../check/finding.ts';
import { visible } from '../render/escape.ts';
import { beginnings } from './beginnings.ts';
import { COMMANDS } from './catalogue.ts';
import { CLOSING_OPTIONS } from './closing-spec.ts';
import { fieldsAsOptions } from './field-options.ts';
import { flagOf } from './flags.ts';
import { storeFor } from './remembered.ts';
import { fieldAnswers, idAnswers, type Shelf } from './id-answers.ts';
import { inKilnAnswers } from './kiln-answers.ts';
import { EVERYWHERE } from './options.ts';
import { periodAnswers, sheetAnswers } from './quarter-answers.ts';
import { sentenceAnswers } from './sentence-answers.ts';
import type { ArgumentSpec, CommandSpec, Offers, OptionSpec } from './spec.ts';
import { typedLine, type TypedLine } from './typed-line.ts';
import type { World } from './world.ts';

/** One way to go on, and what it is about. */
export interface Answer {
  readonly word: string;
  readonly about: string;
}

/** Answers, or that folders go there, which the shell finds itself. */
type Answers = readonly Answer[] | 'folders';

/** More answers than these are given as beginnings. */
const MOST = 100;

/** The text of all answers, as `completeWords` says. */
export async function answerWords(typed: readonly string[], world: World): Promise<string> {
  const line = typedLine(typed, { commands: COMMANDS, optionsOf });
  const answers = await answersTo(line, world);
  if (answers === 'folders') return 'folders\n';
  return shown(line, answers);
}

function optionsOf(
  command: CommandSpec | undefined,
  { words, given }: Pick<TypedLine, 'words' | 'given'>,
): readonly OptionSpec[] {
  const kind = command?.takesFields === true ? KINDS.find((each) => each === words[0]) : undefined;
  const own = kind === undefined ? [] : fieldsAsOptions(kind);
  const fields = kind === 'sales' && given.has('--closing') ? CLOSING_OPTIONS : own;
  return [...fields, ...(command?.options ?? []), ...EVERYWHERE];
}

async function answersTo(line: TypedLine, world: World): Promise<Answers> {
  const { command, waiting, current } = line;
  if (waiting) return valuesOf(waiting, line, world);
  if (current.startsWith('-')) return optionAnswers(line);
  if (!command) return COMMANDS.map(({ name, about }) => ({ word: name, about }));
  if (command.takesFields === true && line.words.length === 0) return kindAnswers();
  const argument = line.words.length === 0 ? command.argument : command.more;
  return argument ? valuesOf(argument, line, world) : optionAnswers(line);
}

function optionAnswers({ options, given }: TypedLine): readonly Answer[] {
  return options
    .filter((option) => option.repeats === true || !given.has(flagOf(option)))
    .map((option) => ({ word: flagOf(option), about: option.about }));
}

function kindAnswers(): readonly Answer[] {
  return KINDS.map((kind) => ({ word: kind, about: NOUN[kind] }));
}

async function valuesOf(
  { choices = [], offers = [] }: OptionSpec | ArgumentSpec,
  line: TypedLine,
  world: World,
): Promise<Answers> {
  if (offers === 'folders') return offers;
  const shelf = {
    studio: line.given.get('--studio') ?? world.folder,
    storeFor: (folder: string) => storeFor(folder, world),
  };
  if (typeof offers === 'string') return OFFERED[offers](shelf, line);
  const words = choices.map((word) => ({ word, about: '' }));
  return offers.length === 0
    ? words
    : [...words, ...(await idAnswers(offers, line.current, shelf))];
}

type Offered = (shelf: Shelf, line: TypedLine) => Promise<readonly Answer[]> | readonly Answer[];

const OFFERED: Readonly<Record<Exclude<Offers, readonly Kind[] | 'folders'>, Offered>> = {
  fields: (shelf, line) => fieldAnswers(line, shelf),
  'in-kiln': inKilnAnswers,
  periods: periodAnswers,
  sentence: sentenceAnswers,
  sheets: sheetAnswers,
};

function shown({ current, joined }: TypedLine, answers: readonly Answer[]): string {
  // A word with signs that act on a terminal can't be typed on it either.
  const fitting = answers.filter(({ word }) => word.startsWith(current) && visible(word) === word);
  const few = fitting.length > MOST ? beginnings(fitting, MOST) : fitting;
  const isOpen = few !== fitting || fitting.some(({ word }) => word.endsWith('='));
  const lines = few.map(({ word, about }) => `${joined}${word}\t${visible(about)}`);
  return `${[isOpen ? 'beginnings' : 'words', ...lines].join('\n')}\n`;
}
