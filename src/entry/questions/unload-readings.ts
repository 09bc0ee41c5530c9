/** What is read off at the end of a firing, and asked for when its kiln is unloaded. */
import {
  isMap,
  mapping,
  textUnder,
  valueAt,
  withValue,
  type Path,
  type Raw,
  type RawMap,
} from '../../read/raw.ts';
import { withDefaults } from '../defaults.ts';
import { isStoodFor } from '../fields.ts';
import type { FoundRecord, Lexicon } from '../lexicon.ts';
import type { OpenedStudio } from '../plan.ts';
import { lookAtDraft, sayOf, type RecordDraft } from './draft.ts';
import { optionNamed } from './ground.ts';
import {
  answerText,
  isDone,
  question,
  takenAnswer,
  type Answer,
  type Question,
} from './question.ts';
import { lastLike, recordsByDay } from './usual.ts';

/** The firing that is unloaded, in its studio. */
export interface KilnLoad {
  readonly opened: OpenedStudio;
  readonly lexicon: Lexicon;
  readonly firing: FoundRecord;
  /** What is read off at the end: names of options, and fields that those fill, still to be asked. */
  readonly readings: readonly KilnReading[];
}

/** An option of `unload` in camelCase, and the field of the firing that it fills. */
export interface KilnReading<Option extends string = string> {
  readonly option: Option;
  readonly field: string;
}

/** Fields of a firing of which each says what it drew; one of them is enough. */
const DRAWN = ['energy', 'meter.before', 'meter.after', 'fuel-used'];

/**
 * The readings that the last firing of this kiln and kind has, and this one lacks. Where none says yet what
 * such a firing draws, that is asked too, by whatever the kiln is fired with, and how long it took.
 */
export function usualReadings<Option extends string>(
  firing: FoundRecord,
  lexicon: Lexicon,
  readings: readonly KilnReading<Option>[],
): readonly KilnReading<Option>[] {
  const fields = isMap(firing.raw) ? firing.raw : mapping([]);
  const others = recordsByDay(lexicon, 'firings').filter((record) => record !== fields);
  const last = lastLike(others, fields, [['kiln'], ['kind']]);
  const isThere = (record: RawMap | undefined, field: string): boolean =>
    valueAt(record, field.split('.')) !== undefined;
  const asked = readingsOf(lexicon, fields, last);
  return readings.filter(({ field }) => {
    const isLacking =
      !isThere(fields, field) && !isStoodFor('firings', fields, field.split('.')[0]);
    return isLacking && asked.includes(field);
  });
}

/** Fields of a firing that are read off at its end. */
export const READ_OFF = [...DRAWN, 'hours', 'tended', 'cone-seen', 'peak'];

/** Those that the last such firing has; where it does not say what it drew, also what a new kiln is asked. */
export function readingsOf(
  lexicon: Lexicon,
  fields: RawMap,
  last: RawMap | undefined,
): readonly string[] {
  const isThere = (field: string): boolean => valueAt(last, field.split('.')) !== undefined;
  const usual = READ_OFF.filter((field) => isThere(field) && field !== 'meter.before');
  return DRAWN.some(isThere) ? usual : [...usual, ...newReadings(lexicon, fields)];
}

function newReadings(lexicon: Lexicon, { kiln }: RawMap): readonly string[] {
  const fuel = textUnder(lexicon.find(typeof kiln === 'string' ? kiln : '')?.raw, 'fuel');
  const drawn = fuel === 'electricity' ? ['energy', 'meter.before', 'meter.after'] : ['fuel-used'];
  return ['hours', ...drawn, 'tended'];
}

/** The question about the next of what was read off at the end; undefined where all is told. */
export function readingDue(load: KilnLoad, answers: readonly Answer[]): Question | undefined {
  const reading = load.readings.find((each) => isToRead(load, each, answers));
  return reading && readingQuestion(load, reading);
}

/** What was read off is asked for once: a meter's end where there is a beginning, and energy in one way. */
function isToRead(
  { readings }: KilnLoad,
  { option, field }: KilnReading,
  answers: readonly Answer[],
): boolean {
  if (isDone(answers, option)) return false;
  const said = readings.filter((each) => answerText(answers, each.option) !== '');
  const isBegun = said.some((each) => each.field === 'meter.before');
  if (field === 'meter.after' && readings.some((each) => each.field === 'meter.before'))
    return isBegun && !said.some((each) => each.field === 'energy');
  return !DRAWN.includes(field) || !said.some((each) => DRAWN.includes(each.field));
}

/** The firing with a value in its place. */
export function draftOf({ firing }: KilnLoad, path: Path, value: Raw): RecordDraft {
  const changed = withValue(firing.raw, path, value);
  const { id, file } = firing;
  return { kind: 'firings', id, file, fields: isMap(changed) ? changed : mapping([]) };
}

function readingQuestion(load: KilnLoad, { option, field }: KilnReading): Question {
  const path = field.split('.');
  const spec = optionNamed('firings', field.replace('.', '-'));
  return question({
    key: option,
    prompt: spec?.title ?? field,
    about: `such as ${spec?.example ?? ''}`,
    path,
    fallback: '',
    judge: (typed) => {
      const draft = draftOf(load, path, typed);
      const ground = { lexicon: load.lexicon, day: load.opened.asOf };
      const fields = withDefaults('firings', draft.fields, ground);
      const { error, warning } = sayOf(
        lookAtDraft(load.opened, { ...draft, fields }),
        draft.id,
        path,
      );
      return error === '' ? { ...takenAnswer([], typed), warning } : { refused: error };
    },
  });
}
