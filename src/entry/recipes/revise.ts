/** A new version of a recipe: the whole list, or what is changed of the version before. */
import type { Day } from '../../book.ts';
import { pathWords } from '../../in-words.ts';
import { nearest } from '../../nearest.ts';
import {
  isList,
  isMap,
  mapping,
  textUnder,
  valueAt,
  type Raw,
  type RawMap,
} from '../../read/raw.ts';
import type { Refused } from '../../write/parts.ts';
import type { Amendment } from '../amendment.ts';
import type { TypedFault } from '../expand.ts';
import type { Form } from '../form.ts';
import type { FoundRecord, Lexicon } from '../lexicon.ts';

/** How a change reads; the amount may come before the material too. */
export const CHANGE_FORM: Form = {
  kind: 'recipes',
  field: 'versions',
  option: 'change',
  shape: 'MATERIAL AMOUNT or without MATERIAL',
  about: 'parts of the base, or a percentage on top of it',
  examples: ['kaolin 12', 'rutile 2.5%', 'without rutile'],
  grammar: { middle: ['material'], tails: { without: 'material' } },
};

/** What is said of a new version. */
export interface RevisionSaid {
  /** `bentonite 2`, `2.5% rutile`, `without rutile`. */
  readonly changes: readonly string[];
  /** All lines of the base, and all additions, where they are given; else as in the version before. */
  readonly base: readonly string[];
  readonly additions: readonly string[];
  readonly from: Day;
  readonly note: string | undefined;
}

/** A new version, and the one that was in force on its day. */
export interface Revision {
  readonly before: RawMap | undefined;
  readonly version: RawMap;
  readonly amendment: Amendment;
}

/** One material of a version, and how much of it as it is written: parts, or a percentage on top. */
export interface RecipeLine {
  readonly material: string;
  readonly amount: string;
}

/** The materials of a version; the additions come on top of the base. */
export interface RecipeLines {
  readonly base: readonly RecipeLine[];
  readonly additions: readonly RecipeLine[];
}

/** Makes the version that is said, and finds its place among the others; refused where it has none. */
export function revised(
  recipe: FoundRecord,
  said: RevisionSaid,
  lexicon: Lexicon,
): Revision | Refused | { readonly faults: readonly TypedFault[] } {
  const versions = versionsIn(recipe.raw);
  if (!versions)
    return { refused: `${recipe.id} has errors; run saggar check, and correct it first` };
  const { from } = said;
  const same = versions.findIndex((version) => textUnder(version, 'from') === from);
  if (same >= 0)
    return {
      refused: `${recipe.id} has a version from ${from} already; choose another day with --from, or change that one with saggar amend ${recipe.id} ${pathWords(['versions', same, 'base', 0, 'parts'])}=…`,
    };
  const before = latestBefore(versions, from);
  const read = readLines(said, before, lexicon);
  if ('faults' in read) return read;
  const { lines } = read;
  if (lines.base.length === 0)
    return { refused: `nothing is left in the base of ${recipe.id}; give its lines with --base` };
  if (before && areSameLines(linesOfVersion(before), lines))
    return {
      refused: `${recipe.id} is so already from ${textUnder(before, 'from')} on; say what changes`,
    };
  const version = versionOf(said, lines);
  const later = versions.findIndex((each) => textUnder(each, 'from') > from);
  const at = later < 0 ? versions.length : later;
  const amendment = { path: ['versions', at], value: version, isNew: later >= 0 };
  return { before, version, amendment };
}

function versionsIn(raw: Raw): readonly RawMap[] | undefined {
  const list = valueAt(raw, ['versions']);
  return isList(list) && list.every(isMap) ? list : undefined;
}

function latestBefore(versions: readonly RawMap[], day: Day): RawMap | undefined {
  const started = versions.filter((version) => textUnder(version, 'from') < day);
  const froms = started.map((version) => textUnder(version, 'from')).sort();
  return started.find((version) => textUnder(version, 'from') === froms.at(-1));
}

/** The materials of a version as it is in a file. */
export function linesOfVersion(version: RawMap): RecipeLines {
  const lines = (list: string, field: string): readonly RecipeLine[] => {
    const items = version[list];
    return isList(items)
      ? items.map((item) => ({
          material: textUnder(item, 'material'),
          amount: textUnder(item, field),
        }))
      : [];
  };
  return { base: lines('base', 'parts'), additions: lines('additions', 'percent') };
}

function areSameLines(one: RecipeLines, other: RecipeLines): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

function versionOf({ from, note }: RevisionSaid, { base, additions }: RecipeLines): RawMap {
  const items = (lines: readonly RecipeLine[], field: string): Raw =>
    lines.map(({ material, amount }) =>
      mapping([
        ['material', material],
        [field, amount],
      ]),
    );
  return mapping([
    ['from', from],
    ...(note === undefined ? [] : ([['note', note]] as const)),
    ['base', items(base, 'parts')] as const,
    ...(additions.length > 0 ? ([['additions', items(additions, 'percent')]] as const) : []),
  ]);
}

type LinesRead = { readonly lines: RecipeLines } | { readonly faults: readonly TypedFault[] };

function readLines(
  { base, additions, changes }: RevisionSaid,
  before: RawMap | undefined,
  lexicon: Lexicon,
): LinesRead {
  const known = before ? linesOfVersion(before) : { base: [], additions: [] };
  const faults: TypedFault[] = [];
  const whole = (name: string, lines: readonly string[]): readonly RecipeLine[] =>
    lines.flatMap((line, index) => {
      const read = readLine(line, lexicon);
      if ('line' in read && read.line.amount !== '') return [read.line];
      faults.push(faultIn([name, index], line, 'line' in read ? NO_AMOUNT : read));
      return [];
    });
  let lines = {
    base: base.length > 0 ? whole('base', base) : known.base,
    additions: additions.length > 0 ? whole('addition', additions).map(asPercent) : known.additions,
  };
  changes.forEach((change, index) => {
    const made = changedBy(lines, change, lexicon);
    if ('message' in made) faults.push(faultIn(['revise', index], change, made));
    else lines = { base: [...made.base], additions: [...made.additions] };
  });
  return faults.length > 0 ? { faults } : { lines };
}

/** What is wrong with a line, and which of its words. */
interface RecipeFault {
  readonly message: string;
  readonly hint: string;
  readonly word?: string;
}

const NO_AMOUNT: RecipeFault = {
  message: 'it has no amount',
  hint: 'write how much there is of it, as in "27 kaolin"',
};

function faultIn(
  path: TypedFault['path'],
  sentence: string,
  { message, hint, word }: RecipeFault,
): TypedFault {
  const at = word === undefined ? -1 : sentence.indexOf(word);
  const place =
    at < 0 ? { start: 0, width: sentence.length } : { start: at, width: word?.length ?? 1 };
  return { rule: 'schema', path, sentence, message, hint, ...place };
}

const AMOUNT_OF_LINE = /^\d+(?:\.\d+)?%?$/;

/** Reads `2 bentonite`, `bentonite 2`, `2% bentonite`; `without bentonite` is a line of no amount. */
function readLine(text: string, lexicon: Lexicon): { readonly line: RecipeLine } | RecipeFault {
  const words = text.trim().split(/\s+/);
  const amounts = words.filter((word) => AMOUNT_OF_LINE.test(word));
  const isOut = words[0]?.toLowerCase() === 'without';
  const names = words.filter((word, at) => !AMOUNT_OF_LINE.test(word) && !(isOut && at === 0));
  const [name, second] = names;
  const hint =
    'write a material and how much, as in "27 kaolin" or "2% rutile", or "without rutile"';
  if (name === undefined) return { message: 'it names no material', hint };
  if (second !== undefined)
    return { message: `"${second}" is one word too many`, hint, word: second };
  if (amounts.length !== (isOut ? 0 : 1))
    return { message: amounts.length > 0 ? 'it has an amount too many' : 'it has no amount', hint };
  const found = lexicon.find(name);
  if (found?.kind === 'materials')
    return { line: { material: found.id, amount: amounts[0] ?? '' } };
  const near = nearest(name, lexicon.ids(['materials']));
  return {
    message: `"${name}" is not a material of this studio`,
    hint: near === undefined ? 'use the id of a material' : `did you mean "${near}"?`,
    word: name,
  };
}

function asPercent({ material, amount }: RecipeLine): RecipeLine {
  return { material, amount: amount.endsWith('%') ? amount : `${amount}%` };
}

/** The lines with one of them changed, added or taken out. */
function changedBy(
  lines: RecipeLines,
  change: string,
  lexicon: Lexicon,
): RecipeLines | RecipeFault {
  const read = readLine(change, lexicon);
  if (!('line' in read)) return read;
  const { material, amount } = read.line;
  const has = (list: readonly RecipeLine[]): boolean =>
    list.some((each) => each.material === material);
  if (amount === '')
    return has(lines.base) || has(lines.additions)
      ? { base: without(lines.base, material), additions: without(lines.additions, material) }
      : { message: `${material} is not in it`, hint: 'leave that change out', word: material };
  const isAddition = amount.endsWith('%') || (has(lines.additions) && !has(lines.base));
  if (!isAddition) return { ...lines, base: putLine(lines.base, read.line) };
  if (has(lines.base) && !has(lines.additions))
    return {
      message: `${material} is in the base, in parts`,
      hint: `write the parts without %, as in "${material} ${amount.slice(0, -1)}"`,
      word: amount,
    };
  return { ...lines, additions: putLine(lines.additions, asPercent(read.line)) };
}

function without(lines: readonly RecipeLine[], material: string): readonly RecipeLine[] {
  return lines.filter((line) => line.material !== material);
}

function putLine(lines: readonly RecipeLine[], line: RecipeLine): readonly RecipeLine[] {
  const at = lines.findIndex(({ material }) => material === line.material);
  return at < 0 ? [...lines, line] : lines.with(at, line);
}
