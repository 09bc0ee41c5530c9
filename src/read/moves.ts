/** What a record moves of all that the events come to, by what the schemas say of its fields. */
import { MOVES } from '../../schema/generated/moves.js';
import type { Moved, Moves } from '../../schema/spec.ts';
import type { Dashed, Kind, RecordOf, Studio } from '../book.ts';
import type { Raw, RawMap } from './raw.ts';

export type { Moves };

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

const TABLES: Readonly<Record<Kind | 'studio', Table>> = DECIDED;

type Table = Readonly<Record<string, Moved>>;

/**
 * What the field at a path of keys moves, the most of what is in it: `date` means whatever happens from
 * the earliest day on of the record, or of a record that names it. A field that no schema has moves all.
 */
export function movesOf(kind: Kind | 'studio', path: readonly (string | number)[]): Moves {
  let found: Moved = TABLES[kind];
  for (const key of path) {
    if (typeof found === 'string') return found;
    if (typeof key === 'string') found = found[key] ?? 'all';
  }
  return most(found);
}

const FROM_LEAST: readonly Moves[] = ['nothing', 'date', 'all'];

const known = new WeakMap<Table, Moves>();

function most(moved: Moved): Moves {
  if (typeof moved === 'string') return moved;
  const moves = known.get(moved) ?? mostOf(new Set(Object.values(moved).map(most)));
  known.set(moved, moves);
  return moves;
}

function mostOf(all: ReadonlySet<Moves>): Moves {
  return FROM_LEAST.findLast((each) => all.has(each)) ?? 'nothing';
}

/** What a sound record moves that came, went or changed: the most of the fields that it has. */
export function movedByRecord(kind: Kind | 'studio', record: RawMap): Moves {
  const found = new Set<Moves>();
  gather(record, TABLES[kind], found);
  return mostOf(found);
}

function gather(raw: Raw, moved: Moved, found: Set<Moves>): void {
  if (typeof moved === 'string') found.add(moved);
  else if (isList(raw)) for (const each of raw) gather(each, moved, found);
  else if (typeof raw === 'object')
    for (const key of Object.keys(raw)) gather(raw[key] ?? '', moved[key] ?? 'all', found);
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
  for (const key of Object.keys(raw).sort()) {
    const moves = typeof moved === 'string' ? moved : (moved[key] ?? 'all');
    if (most(moves) !== 'nothing') text += fieldText(key, raw[key] ?? '', moves);
  }
  return text;
}

function fieldText(key: string, raw: Raw, moves: Moved): string {
  if (key !== 'changes' || !isList(raw) || typeof moves === 'string')
    return `${key.length}:${key}=${movingIn(raw, moves)}`;
  const changes = raw.map((change) => movingChange(change, moves)).join('');
  return changes === '' ? '' : `changes=[${changes}]`;
}

/** A change of what moves nothing moves nothing, from whatever day it holds. */
function movingChange(change: Raw, moved: Table): string {
  if (typeof change === 'string' || isList(change)) return movingIn(change, 'all');
  const { from = '', without = [], ...fields } = change;
  const gone = isList(without)
    ? without.filter((key) => typeof key === 'string' && most(moved[key] ?? 'all') !== 'nothing')
    : [];
  const kept = fieldsText(fields, moved);
  if (kept === '' && gone.length === 0) return '';
  return `{${movingIn(from, 'all')}${kept}${movingIn(gone, 'all')}}`;
}

function isList(raw: Raw): raw is readonly Raw[] {
  return Array.isArray(raw);
}
