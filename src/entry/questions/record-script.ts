/** The questions that `add` asks about a record: what it needs, and what is usual for its kind. */
import { isList, isMap, valueAt, type Path, type RawMap } from '../../read/raw.ts';
import { isStoodFor, missingOptions, type FieldOption } from '../fields.ts';
import { checksOfFair, floatOfFair, isFair } from './fair.ts';
import { optionQuestion } from './field-question.ts';
import { optionNamed, optionWords, recordOf, type Ground } from './ground.ts';
import { usableAdvances } from './likely-lines.ts';
import { isDone, type Answer, type Question, type Script } from './question.ts';
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
  const option = optionsToAsk(asking).find(
    ({ name }) => !isDone(answers, name) && !isGivenAlready(ground, name),
  );
  const fair = isFair(ground, fields);
  if (fair && option?.form?.field === 'lines' && !isDone(answers, 'float'))
    return floatOfFair(ground);
  if (!option) return fair ? checksOfFair(ground, answers) : undefined;
  return optionQuestion(ground, { answers, option, fallback: fallbackFor(asking, option) });
}

function optionsToAsk({ ground, answers, fields, last }: RecordAsked): readonly FieldOption[] {
  const { kind } = ground;
  const missing = missingOptions(kind, fields).map(({ name }) => name);
  const isOpen = (name: string): boolean =>
    bare(name) === 'advance' && usableAdvances(ground, fields).length > 0;
  const usual = ASKED[kind].filter((name) => isUsual(kind, name, last) || isOpen(name)).map(bare);
  const names = [...usual, ...missing.filter((name) => !usual.includes(name))];
  return names
    .map((name) => optionNamed(kind, name))
    .filter((option) => option !== undefined)
    .filter((option) => makesSense(ground, option.name, fields))
    .filter(({ name }) => asksForTax(ground, name, fields))
    .filter((option) => isDone(answers, option.name) || !isStoodFor(kind, fields, option.name));
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

function fallbackFor({ ground, fields, last }: RecordAsked, { name, path }: FieldOption): string {
  if (ground.kind === 'sales' && name === 'paid' && paysLater(fields, ground.lexicon)) return 'no';
  if (name === 'date' || name === 'from') return ground.opened.asOf;
  if (!CARRIED[ground.kind]?.includes(name)) return '';
  const value = valueAt(last, path);
  return typeof value === 'string' && !isMap(value) && !isList(value) ? value : '';
}
