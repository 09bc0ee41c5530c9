/** One random change of a random studio: a record gone, or there once more, or one field of it another. */
import { KINDS, type Kind } from '../../../src/book.ts';
import { addDays, daysBetween } from '../../../src/number/date.ts';
import type { RawMap } from '../../../src/read/raw.ts';
import type { RandomSource } from '../../helpers/random-source.js';
import type { RandomStudio } from '../../helpers/random-studio.ts';
import type { AnyKind } from './books.ts';
import { FIRST_DAY } from './days.ts';
import { editOf, fieldsOf } from './field-edits.ts';

/** What one record is after a change; undefined where it is gone. */
export interface RandomEdit {
  readonly what: string;
  readonly kind: AnyKind;
  readonly id: string;
  readonly after: RawMap | undefined;
}

/** A change of a studio; undefined where none was found. */
export function randomEdit(studio: RandomStudio, random: RandomSource): RandomEdit | undefined {
  const { records } = studio;
  const kind = random.pick(KINDS.filter((each) => Object.keys(records[each]).length > 0));
  const id = random.pick(Object.keys(records[kind]));
  if (random.chance(0.1)) return { what: `${id} is gone`, kind, id, after: undefined };
  if (random.chance(0.1))
    return { what: `${id} twice`, kind, id: `${id}x`, after: records[kind][id] };
  return fieldEdit(studio, random, random.chance(0.2) ? 'studio' : kind);
}

function fieldEdit(
  { settings, records, asOf }: RandomStudio,
  random: RandomSource,
  kind: AnyKind,
): RandomEdit | undefined {
  const day = (): string => addDays(FIRST_DAY, random.int(0, daysBetween(FIRST_DAY, asOf)));
  const ids = (of: Kind): string[] => Object.keys(records[of]);
  const own = kind === 'studio' ? { studio: settings } : records[kind];
  const field = random.pick(fieldsOf(kind));
  const edit = editOf({ kind, records: own, values: { random, day, ids } }, field);
  if (!edit || edit.isFilled) return undefined;
  const { id, after } = edit;
  return { what: `${kind} ${id} ${field.keys.join('.')}`, kind, id, after };
}
