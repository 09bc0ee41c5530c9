/** A list of lines from a file or from notes: which option each of them is a sentence of, and where it stands. */
import { FIELDS } from '../../schema/generated/fields.js';
import type { Kind } from '../book.ts';
import type { Place } from '../problem.ts';
import type { Form } from './form.ts';
import { fieldOptions, itemSpec, type FieldOption } from './fields.ts';
import type { Lexicon } from './lexicon.ts';
import { readSentence } from './sentence.ts';

/** A line of the list. */
interface SentenceLine {
  /** The option that it is a sentence of, without hyphens, and the sentence. */
  readonly option: string;
  readonly sentence: string;
  /** The whole line as it stands there, and where the sentence begins in it, from 0. */
  readonly source: string;
  readonly start: number;
  /** From 1. */
  readonly line: number;
}

/** A list that was read. */
export interface LineList {
  /** What its text is called. */
  readonly file: string;
  readonly lines: readonly SentenceLine[];
}

/** Says for a sentence which option it is of, where no word before it does. */
type OptionFor = (sentence: string) => string;

/**
 * Reads a list: one sentence a line; what is empty or begins with `#` is passed over. A line that
 * begins with an option's name, with or without a colon, is of that one: `back 2 mug`.
 */
export function readLineList(
  { file, text }: { readonly file: string; readonly text: string },
  names: readonly string[],
  optionFor: OptionFor,
): LineList {
  const lines = text.split(/\r?\n/).flatMap((source, index) => {
    const [, space = '', rest = ''] = /^(\s*)(.*?)\s*$/.exec(source) ?? [];
    if (rest === '' || rest.startsWith('#')) return [];
    const [, name = '', gap = '', own = ''] = /^([a-z-]+)(:?\s+)(.*)$/.exec(rest) ?? [];
    const isNamed = names.includes(name);
    const sentence = isNamed ? own : rest;
    const start = space.length + (isNamed ? name.length + gap.length : 0);
    const option = isNamed ? name : optionFor(rest);
    return [{ option, sentence, source, start, line: index + 1 }];
  });
  return { file, lines };
}

/** The options and values that say the same. */
export function listWords({ lines }: LineList): readonly string[] {
  return lines.flatMap(({ option, sentence }) => [`--${option}`, sentence]);
}

/** The place of a sentence of the list, or of something in it; undefined where it is not of the list. */
export function placeInList(
  { file, lines }: LineList,
  sentence: { readonly option: string; readonly turn: number },
  within?: { readonly start: number; readonly width: number },
): Place | undefined {
  const found = lines.filter(({ option }) => option === sentence.option)[sentence.turn];
  if (!found) return undefined;
  const { start = 0, width = found.sentence.length } = within ?? {};
  const column = found.start + start + 1;
  return { file, line: found.line, column, width: Math.max(1, width), source: found.source };
}

/** The names of a kind's options that take sentences. */
export function listOptions(kind: Kind): readonly (FieldOption & { readonly form: Form })[] {
  return fieldOptions(kind).flatMap((option) =>
    option.form && option.repeats ? [{ ...option, form: option.form }] : [],
  );
}

/**
 * Which of a kind's lists a sentence is of: its main one, which is that which every record has, unless
 * another is the only one that understands it, as in a stocktake of materials and pieces.
 */
export function optionOfKind(kind: Kind, lexicon: Lexicon): OptionFor {
  const options = listOptions(kind);
  const isMain = ({ path: [field] }: FieldOption): boolean =>
    FIELDS[kind].required.includes(String(field));
  const inTurn = [...options.filter(isMain), ...options.filter((option) => !isMain(option))];
  return (sentence) => {
    const fits = inTurn.find((option) => isRead(option, sentence, lexicon));
    return (fits ?? inTurn[0])?.name ?? '';
  };
}

function isRead(
  { form, spec }: FieldOption & { readonly form: Form },
  sentence: string,
  lexicon: Lexicon,
): boolean {
  const item = itemSpec(spec);
  return (
    item !== undefined && readSentence(sentence, { form, spec: item, lexicon }).faults.length === 0
  );
}
