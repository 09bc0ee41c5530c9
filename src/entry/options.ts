/** Reads the field options of a command line into a record whose lists still hold what was typed. */
import type { Kind } from '../book.ts';
import { nearest } from '../check/nearest.ts';
import { isList, newMapping, valueAt, withValue, type RawMap } from '../read/raw.ts';
import type { Refused } from '../write/parts.ts';
import { fieldOptions, type FieldOption } from './fields.ts';

/** What was typed for a kind, and the command's other options, for did-you-mean. */
export interface TypedOptions {
  readonly kind: Kind;
  /** Options and values as they came: `--line`, `2 mug at 38`, `--paid=no`. */
  readonly words: readonly string[];
  /** Names of the options that are none of a record's fields, without hyphens. */
  readonly others: readonly string[];
}

/** The record of the options; each value is taken as it was typed, without the blanks around it. */
export function readOptions(typed: TypedOptions): { readonly fields: RawMap } | Refused {
  const options = new Map(fieldOptions(typed.kind).map((option) => [option.name, option]));
  let fields: RawMap = newMapping();
  const given = givenOptions(typed.words);
  if ('refused' in given) return given;
  for (const { name, value } of given) {
    const option = options.get(name);
    if (!option) return unknownOption(typed, name, [...options.keys()]);
    if (value === undefined)
      return { refused: `--${name} wants a value, such as ${example(option)}` };
    const taken = putOption(fields, option, value.trim());
    if (!taken) return { refused: `--${name} is given twice; keep one of the two` };
    fields = taken;
  }
  return { fields };
}

/** An option as it came, and its value; undefined where none came. */
export interface Given {
  readonly name: string;
  readonly value: string | undefined;
}

/** Options with the word after each: a value may begin with a hyphen, as a refund does. */
export function givenOptions(words: readonly string[]): Given[] | Refused {
  const given: Given[] = [];
  for (let at = 0; at < words.length; at++) {
    const word = words[at] ?? '';
    const [, name = '', joined] = /^--([^=]+)(?:=(.*))?$/s.exec(word) ?? [];
    if (name === '') return strayWord(word);
    given.push({ name, value: joined ?? words[++at] });
  }
  return given;
}

function strayWord(word: string): Refused {
  return {
    refused: `"${word}" stands there without an option; put words that belong together in quotes, as in --line "2 mug at 38"`,
  };
}

function unknownOption({ kind, others }: TypedOptions, name: string, own: string[]): Refused {
  const near = nearest(name, [...own, ...others]);
  const hint = near === undefined ? `see saggar add ${kind} --help` : `did you mean --${near}?`;
  return { refused: `${kind} has no option --${name}; ${hint}` };
}

function example({ example: text }: FieldOption): string {
  return text.includes(' ') ? `"${text}"` : text;
}

/** The record with a value at its place; undefined where there is one that can't be added to. */
function putOption(record: RawMap, option: FieldOption, value: string): RawMap | undefined {
  const { path, repeats } = option;
  const known = valueAt(record, path);
  if (!repeats) return known === undefined ? (withValue(record, path, value) as RawMap) : undefined;
  const added = isWordList(option) ? value.split(/\s+/) : [value];
  return withValue(record, path, [...(isList(known) ? known : []), ...added]) as RawMap;
}

function isWordList({ spec }: FieldOption): boolean {
  return spec.type === 'list' && spec.of.type === 'word';
}
