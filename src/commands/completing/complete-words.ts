/** What the shells' scripts ask, how a command line can go on: commands, options, choices, folders, and ids of the book. */
import { KINDS, type Kind } from '../../book.ts';
import { NOUN } from '../../check/finding.ts';
import { fieldOptions } from '../../entry/fields.ts';
import { findStudio } from '../../read/find.ts';
import { LISTS_FOLDER } from '../../read/kinds.ts';
import { listNames } from '../../read/list-file.ts';
import { visible } from '../../render/escape.ts';
import { printedLayout } from '../../render/printable.ts';
import { beginnings, isId, type CompletionAnswer, type KnownStudio } from './answers.ts';
import { COMMANDS, type CommandOf } from '../catalogue.ts';
import { storeFor } from '../studio/find-studio.ts';
import { fieldAnswers, idAnswers, inKilnAnswers, paperAnswers, standingIn } from './id-answers.ts';
import { EVERYWHERE } from '../options.ts';
import { periodAnswers, sheetAnswers } from './quarter-answers.ts';
import { CLOSING_OPTIONS } from '../record-commands.ts';
import { sentenceAnswers } from './sentence-answers.ts';
import {
  flagOf,
  type ArgumentSpec,
  type CommandSpec,
  type Offers,
  type OptionSpec,
} from '../spec.ts';
import { typedLine, type TypedLine } from './typed-line.ts';
import { EXIT, type World } from '../world.ts';

/**
 * Answers how the words of a line can go on from the last one, which may be empty. The first line says
 * what follows: `words`, `beginnings` (of words, so that no space goes behind one) or `folders`
 * (which the shell finds itself); then comes one answer a line, a tab, and what it is about. Of any
 * failure it says nothing: it is asked in the middle of a line.
 */
export const completeWords: CommandOf<'complete-words'> = async ({ words }, world) => {
  try {
    const line = typedLine(words, { commands: COMMANDS, optionsOf });
    const answers = await answersTo(line, world);
    world.write(printedLayout(answers === 'folders' ? 'folders\n' : wordsShown(line, answers)));
  } catch {
    // There is nobody to tell.
  }
  return EXIT.fine;
};

/** Answers, or that folders go there, which the shell finds itself. */
type Answers = readonly CompletionAnswer[] | 'folders';

/** More answers than these are given as beginnings. */
const MOST = 100;

function optionsOf(
  command: CommandSpec | undefined,
  { words, given }: Pick<TypedLine, 'words' | 'given'>,
): readonly OptionSpec[] {
  const kind = command?.takesFields === true ? KINDS.find((each) => each === words[0]) : undefined;
  const own = kind === undefined ? [] : fieldsAsOptions(kind);
  const fields = kind === 'sales' && given.has('--closing') ? CLOSING_OPTIONS : own;
  return [...fields, ...(command?.options ?? []), ...EVERYWHERE];
}

/** An option for each field of a kind; a line of several values is completed word by word. */
function fieldsAsOptions(kind: Kind): readonly OptionSpec[] {
  return fieldOptions(kind).map(({ name, title, repeats, spec, form }) => ({
    flags: `--${name} <value>`,
    about: title,
    repeats,
    ...(form ? { offers: 'sentence' as const } : standingIn(spec)),
  }));
}

async function answersTo(line: TypedLine, world: World): Promise<Answers> {
  const { command, waiting, current } = line;
  if (waiting) return valuesOf(waiting, line, world);
  if (current.startsWith('-')) return optionAnswers(line);
  if (!command) return COMMANDS.map(({ name, about }) => ({ word: name, about }));
  if (command.takesFields === true)
    return line.words.length === 0
      ? KINDS.map((kind) => ({ word: kind, about: NOUN[kind] }))
      : optionAnswers(line);
  const argument = line.words.length === 0 ? command.argument : command.more;
  return argument ? valuesOf(argument, line, world) : optionAnswers(line);
}

function optionAnswers({ options, given }: TypedLine): readonly CompletionAnswer[] {
  return options
    .filter((option) => option.repeats === true || !isGiven(option, given))
    .map((option) => ({ word: flagOf(option), about: option.about }));
}

function isGiven(option: OptionSpec, given: TypedLine['given']): boolean {
  return given.has(flagOf(option)) || given.has(option.also ?? '');
}

async function valuesOf(
  { choices = [], offers = [] }: OptionSpec | ArgumentSpec,
  line: TypedLine,
  world: World,
): Promise<Answers> {
  if (offers === 'folders') return offers;
  const folder = findStudio(line.given.get('--studio') ?? world.folder);
  const studio = { folder, store: folder === undefined ? undefined : storeFor(folder, world) };
  if (typeof offers === 'string') return OFFERED[offers](studio, line);
  const words = choices.map((word) => ({ word, about: '' }));
  return [...words, ...(await idAnswers(offers, line.current, studio))];
}

type Offered = (
  studio: KnownStudio,
  line: TypedLine,
) => Promise<readonly CompletionAnswer[]> | readonly CompletionAnswer[];

const OFFERED: Readonly<Record<Exclude<Offers, readonly Kind[] | 'folders'>, Offered>> = {
  commands: () => COMMANDS.map(({ name, about }) => ({ word: name, about })),
  fields: fieldAnswers,
  'in-kiln': inKilnAnswers,
  lists: listAnswers,
  papers: paperAnswers,
  periods: periodAnswers,
  sentence: sentenceAnswers,
  sheets: sheetAnswers,
};

function listAnswers({ folder }: KnownStudio): readonly CompletionAnswer[] {
  const names = folder === undefined ? [] : listNames(folder);
  return names.filter(isId).map((word) => ({ word, about: `${LISTS_FOLDER}/${word}.yaml` }));
}

function wordsShown({ current, joined }: TypedLine, answers: readonly CompletionAnswer[]): string {
  // A word with signs that act on a terminal can't be typed on it either.
  const fitting = answers.filter(({ word }) => word.startsWith(current) && visible(word) === word);
  const few = fitting.length > MOST ? beginnings(fitting, MOST) : fitting;
  const isOpen = few !== fitting || fitting.some(({ word }) => word.endsWith('='));
  const lines = few.map(({ word, about }) => `${joined}${word}\t${visible(about)}`);
  return `${[isOpen ? 'beginnings' : 'words', ...lines].join('\n')}\n`;
}
