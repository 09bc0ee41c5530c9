/** The questions that `add` asks about a record: what it needs, and what is usual for its kind. */
import { isList, isMap, textUnder, valueAt, type Path, type RawMap } from '../../read/raw.ts';
import { fieldOptions, isStoodFor, missingOptions, type FieldOption } from '../fields.ts';
import { checksOfFair, floatOfFair, isFair } from './fair.ts';
import { optionQuestion } from './field-question.ts';
import { optionNamed, optionWords, recordOf, type Ground } from './ground.ts';
import { kindsReady, usableAdvances } from './likely-lines.ts';
import { MORE, moreQuestion } from './more-question.ts';
import { answerText, isDone, type Answer, type Question, type Script } from './question.ts';
import { READ_OFF, readingsOf } from './unload-readings.ts';
import { whichQuestion } from './which-question.ts';
import {
  ASKED,
  CARRIED,
  asksForTax,
  lastLike,
  makesSense,
  paysLater,
  recordsByDay,
} from './usual.ts';

/** The questions about one record; together with the options given they make it whole. */
export function recordScript(ground: Ground): Script {
  const records = recordsByDay(ground.lexicon, ground.kind);
  return (answers) => {
    const { fields } = recordOf(ground, optionWords(ground, answers));
    const asking = { ground, answers, fields, last: lastSimilar(ground, records, fields) };
    return nextQuestion(asking);
  };
}

interface RecordAsked {
  readonly ground: Ground;
  readonly answers: readonly Answer[];
  readonly fields: RawMap;
  readonly last: RawMap | undefined;
}

function nextQuestion(asking: RecordAsked): Question | undefined {
  const { ground, answers, fields } = asking;
  const which = whichQuestion(ground, answers, fields);
  if (which) return which;
  const options = optionsToAsk(asking);
  const option = options.find(({ name }) => !isDone(answers, name));
  const fair = isFair(ground, fields);
  if (fair && option?.form?.field === 'lines' && !isDone(answers, 'float'))
    return floatOfFair(ground);
  if (option)
    return optionQuestion(ground, { answers, option, fallback: fallbackFor(asking, option) });
  return (fair ? checksOfFair(ground, answers) : undefined) ?? moreDue(asking);
}

/** The options that are asked in any case, then those that were chosen among the others. */
function optionsToAsk(asking: RecordAsked): readonly FieldOption[] {
  const { ground, answers, fields, last } = asking;
  const { kind } = ground;
  const missing = missingOptions(kind, fields).map(({ name }) => name);
  const isOpen = (name: string): boolean =>
    bare(name) === 'advance' && usableAdvances(ground, fields).length > 0;
  const usual = ASKED[kind].filter((name) => isUsual(kind, name, last) || isOpen(name)).map(bare);
  const chosen = answers.filter(({ key }) => key === MORE).map(({ text }) => text);
  const names = [...usual, ...missing.filter((name) => !usual.includes(name))];
  const asked = optionsNamed(asking, names)
    .filter((option) => makesSense(ground, option.name, fields))
    .filter(({ name }) => asksForTax(ground, name, fields))
    .filter((option) => isReadOff(asking, option));
  const more = chosen.filter((name) => !asked.some((option) => option.name === name));
  return [...asked, ...optionsNamed(asking, more)].filter(
    ({ name }) => !isGivenAlready(ground, name),
  );
}

/** The options of some names, without those that another one stands for. */
function optionsNamed(
  { ground, answers, fields }: RecordAsked,
  names: readonly string[],
): FieldOption[] {
  const { kind } = ground;
  return names
    .map((name) => optionNamed(kind, name))
    .filter((option) => option !== undefined)
    .filter(
      ({ name, path }) => isDone(answers, name) || !isStoodFor(kind, fields, String(path[0])),
    );
}

/** Of what is read off at a kiln, only what this one's usual firings have, or all of a new one's. */
function isReadOff(
  { ground, fields, last, answers }: RecordAsked,
  { path, name }: FieldOption,
): boolean {
  const field = path.join('.');
  if (ground.kind !== 'firings' || !READ_OFF.includes(field) || isDone(answers, name)) return true;
  const asked = readingsOf(ground.lexicon, fields, last);
  const isBegun = !asked.includes('meter.before') || answerText(answers, 'meter-before') !== '';
  return asked.includes(field) && (field !== 'meter.after' || isBegun);
}

/** The question that offers all other fields; only where something is left to offer. */
function moreDue(asking: RecordAsked): Question | undefined {
  const { ground, answers } = asking;
  if (isDone(answers, MORE)) return undefined;
  const asked = new Set(optionsToAsk(asking).map(({ name }) => name));
  const all = fieldOptions(ground.kind).map(({ name }) => name);
  const left = optionsNamed(
    asking,
    all.filter((name) => !asked.has(name)),
  ).filter(({ name }) => !isDone(answers, name) && !isGivenAlready(ground, name));
  return left.length === 0 ? undefined : moreQuestion(left);
}

function isUsual(kind: Ground['kind'], name: string, last: RawMap | undefined): boolean {
  if (!name.endsWith('?')) return true;
  const option = optionNamed(kind, bare(name));
  return option !== undefined && valueAt(last, option.path) !== undefined;
}

function bare(name: string): string {
  return name.replace('?', '');
}

function isGivenAlready({ words }: Ground, name: string): boolean {
  return words.some((word) => word === `--${name}` || word.startsWith(`--${name}=`));
}

function lastSimilar(
  { kind }: Ground,
  records: readonly RawMap[],
  fields: RawMap,
): RawMap | undefined {
  return lastLike(records, fields, carriedPaths(kind));
}

function carriedPaths(kind: Ground['kind']): readonly Path[] {
  return (CARRIED[kind] ?? [])
    .flatMap((name) => optionNamed(kind, name)?.path ?? [])
    .map((p) => [p]);
}

function fallbackFor(asking: RecordAsked, { name, path }: FieldOption): string {
  const { ground, last } = asking;
  if (name === 'paid') return owesUsually(asking) ? 'no' : '';
  if (name === 'date' || name === 'from') return ground.opened.asOf;
  if (ground.kind === 'firings' && name === 'kind') return kindToFire(asking);
  if (!CARRIED[ground.kind]?.includes(name)) return '';
  const value = valueAt(last, path);
  return typeof value === 'string' && !isMap(value) && !isList(value) ? value : '';
}

/** Whether such a record is mostly paid on a later day. */
function owesUsually({ ground, fields, last }: RecordAsked): boolean {
  if (ground.kind === 'sales') return paysLater(fields, ground.lexicon);
  const paid = valueAt(last, ['paid']);
  return paid !== undefined && paid !== valueAt(last, ['date']);
}

/** The only kind of firing that something is ready for; where nothing is, that of the last one. */
function kindToFire({ ground, fields, last }: RecordAsked): string {
  const ready = kindsReady(ground.opened.book, textUnder(fields, 'date'));
  const [only, ...others] = ready;
  if (only === undefined) return textUnder(last, 'kind');
  return others.length === 0 ? only : '';
}
