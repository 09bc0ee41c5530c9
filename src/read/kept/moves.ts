/** What a record moves of all that the events come to, by what the schemas say of its fields. */
import { MOVES } from '../../../schema/generated/moves.js';
import type { Moved, Moves } from '../../../schema/build/spec.ts';
import type { Dashed, Kind, RecordOf, Studio } from '../../book.ts';
import { isList, type Raw, type RawMap } from '../raw.ts';

/** The fields of a typed record by their keys in the file, and those of the records within it. */
type Decided<T> = {
  readonly [F in Exclude<keyof T & string, 'id' | 'file'> as Dashed<F>]-?:
    Moves | Decided<One<Exclude<T[F], undefined>>>;
};

type One<T> = T extends readonly (infer U)[] ? U : T;

/** The types and the schemas name the same fields: one without a decision does not compile. */
const DECIDED: { readonly [K in Kind]: Decided<RecordOf[K]> } & {
  readonly studio: Decided<Studio>;
} = MOVES;

const TABLES: Readonly<Record<Kind | 'studio', MoveTable>> = DECIDED;

type MoveTable = Readonly<Record<string, Moved>>;

const knownMoving = new WeakMap<MoveTable, boolean>();

/** Whether a field, or anything in it, moves something. */
function isMoving(moved: Moved): boolean {
  if (typeof moved === 'string') return moved !== 'nothing';
  const moves = knownMoving.get(moved) ?? Object.values(moved).some(isMoving);
  knownMoving.set(moved, moves);
  return moves;
}

/**
 * The text of all that moves something in a sound record, the same in whatever order its keys stand; empty
 * where nothing does. Two records of one kind, id and text come to the same.
 */
export function movingText(kind: Kind | 'studio', record: RawMap): string {
  return fieldsText(record, TABLES[kind]);
}

// With its length before it no text can be taken for another, whatever is in it.
function movingIn(raw: Raw, moved: Moved): string {
  if (typeof raw === 'string') return `${raw.length}:${raw}`;
  if (!isList(raw)) return `{${fieldsText(raw, moved)}}`;
  let text = '[';
  for (const each of raw) text += movingIn(each, moved);
  return `${text}]`;
}

function fieldsText(raw: RawMap, moved: Moved): string {
  let text = '';
  for (const field of fieldsOf(Object.keys(raw), moved))
    text += fieldText(field, raw[field.key] ?? '');
  return text;
}

/** A field that moves something. */
interface Field {
  readonly key: string;
  /** How its text begins. */
  readonly begins: string;
  readonly moves: Moved;
}

/** The fields of the record that was met last: one has mostly the same as the one before it. */
const last = new Map<Moved, { readonly keys: readonly string[]; readonly fields: Field[] }>();

function fieldsOf(keys: readonly string[], moved: Moved): readonly Field[] {
  const known = last.get(moved);
  if (known?.keys.length === keys.length && keys.every((key, at) => key === known.keys[at]))
    return known.fields;
  const fields = keys.toSorted().flatMap((key): Field[] => {
    const moves = typeof moved === 'string' ? moved : (moved[key] ?? 'all');
    return isMoving(moves) ? [{ key, begins: `${key.length}:${key}=`, moves }] : [];
  });
  last.set(moved, { keys, fields });
  return fields;
}

function fieldText({ key, begins, moves }: Field, raw: Raw): string {
  if (key !== 'changes' || !isList(raw) || typeof moves === 'string')
    return begins + movingIn(raw, moves);
  const changes = raw.map((change) => movingChange(change, moves)).join('');
  return changes === '' ? '' : `changes=[${changes}]`;
}

/** A change of what moves nothing moves nothing, from whatever day it holds. */
function movingChange(change: Raw, moved: MoveTable): string {
  if (typeof change === 'string' || isList(change)) return movingIn(change, 'all');
  const { from = '', without = [], ...fields } = change;
  const gone = isList(without)
    ? without.filter((key) => typeof key === 'string' && isMoving(moved[key] ?? 'all'))
    : [];
  const kept = fieldsText(fields, moved);
  if (kept === '' && gone.length === 0) return '';
  return `{${movingIn(from, 'all')}${kept}${movingIn(gone, 'all')}}`;
}
