/** Makes changes of a definition that hold from a day on out of those that would change it altogether. */
import { FIELDS } from '../../schema/generated/fields.js';
import type { Day } from '../book.ts';
import { listed } from '../check/finding.ts';
import {
  isList,
  isMap,
  mapping,
  withValue,
  withoutValue,
  type Raw,
  type RawMap,
} from '../read/raw.ts';
import type { Refused } from '../write/parts.ts';
import type { Amendable, Amendment } from './amendment.ts';
import { isChange, rawInForce } from './defaults.ts';

/** The fields of a kind that may be another from a day on; none of a kind that has no changes. */
export function changingFields(kind: Amendable['kind']): readonly string[] {
  const { changes } = FIELDS[kind].fields;
  if (changes?.type !== 'list' || changes.of.type !== 'record') return [];
  return Object.keys(changes.of.fields).filter((name) => name !== 'from' && name !== 'without');
}

/**
 * The same amendments from a day on: in the change of that day, or in a new one among the others in the
 * order of their days. A field of which a part is amended is written whole, as it is on that day.
 */
export function amendedFrom(
  record: Amendable,
  amendments: readonly Amendment[],
  day: Day,
): readonly Amendment[] | Refused {
  const refused = unchanging(record, amendments);
  if (refused) return refused;
  const { raw } = record;
  if (!isMap(raw)) return { refused: `${record.id} has no fields; correct it first` };
  const { changes = [] } = raw;
  if (!isList(changes) || !changes.every(isChange))
    return { refused: `the changes of ${recordName(record)} have errors; correct them first` };
  const known = changes.findIndex(({ from }) => from === day);
  const whole = rawInForce(raw, day);
  const old = changes[known] ?? mapping([['from', day]]);
  const change = changed(old, { whole, amendments });
  if (amendments.every(({ path: [name = ''] }) => saysSame(whole, change, String(name))))
    return {
      refused: `${recordName(record)} says all this on ${day} already; nothing was changed`,
    };
  if (known >= 0) return inKnown(old, change, known);
  const later = changes.findIndex(({ from }) => from > day);
  const index = later < 0 ? changes.length : later;
  if (raw['changes'] === undefined) return [{ path: ['changes'], value: [change] }];
  return [{ path: ['changes', index], value: change, isNew: later >= 0 }];
}

function recordName({ id, file }: Amendable): string {
  return id === '' ? file : id;
}

function unchanging(
  { kind, id, file }: Amendable,
  amendments: readonly Amendment[],
): Refused | undefined {
  const fields = changingFields(kind);
  if (fields.length === 0)
    return {
      refused: `${id} can't change from a day on; products, classes, channels and the labour-rate of studio.yaml can`,
    };
  const other = amendments.find(({ path: [name = ''] }) => !fields.includes(String(name)));
  if (!other) return undefined;
  const name = String(other.path[0] ?? '');
  return {
    refused: `${name} of ${id || file} is the same on every day; --from is for ${listed(fields)}`,
  };
}

function saysSame(whole: RawMap, change: RawMap, name: string): boolean {
  return name !== 'note' && JSON.stringify(whole[name]) === JSON.stringify(change[name]);
}

interface WantedChange {
  /** What is in force on the day of the change. */
  readonly whole: RawMap;
  readonly amendments: readonly Amendment[];
}

function changed(change: RawMap, { whole, amendments }: WantedChange): RawMap {
  return amendments.reduce((made, { path, value }) => {
    const name = String(path[0] ?? '');
    // The note of a change is its own.
    const before = made[name] === undefined && name !== 'note' ? whole[name] : made[name];
    return withField(made, name, fieldWith(name, before, { path, value }));
  }, change);
}

function fieldWith(
  name: string,
  before: Raw | undefined,
  { path, value }: { readonly path: Amendment['path']; readonly value: Raw | undefined },
): Raw | undefined {
  const holder = before === undefined ? mapping([]) : mapping([[name, before]]);
  const after = value === undefined ? withoutValue(holder, path) : withValue(holder, path, value);
  const field = isMap(after) ? after[name] : undefined;
  return field !== undefined && typeof field !== 'string' && Object.keys(field).length === 0
    ? undefined
    : field;
}

/** The change with a field, or where there is none any more, with its name under `without`. */
function withField(change: RawMap, name: string, value: Raw | undefined): RawMap {
  const others = listOfChange(change, 'without').filter((gone) => gone !== name);
  const isGone = value === undefined && name !== 'note';
  const without = isGone ? [...others, name] : others;
  const kept = Object.entries(change).filter(([key]) => key !== 'without' && key !== name);
  const at = Object.keys(change).indexOf(name);
  const field: [string, Raw][] = value === undefined ? [] : [[name, value]];
  const fields = at < 0 ? [...kept, ...field] : kept.toSpliced(at, 0, ...field);
  return mapping(without.length === 0 ? fields : [...fields, ['without', without]]);
}

function listOfChange(change: RawMap, name: string): readonly Raw[] {
  const list = change[name];
  return isList(list) ? list : [];
}

/** One amendment for each field of a change that is another now. */
function inKnown(before: RawMap, after: RawMap, index: number): readonly Amendment[] {
  const names = [...new Set([...Object.keys(after), ...Object.keys(before)])];
  return names
    .filter((name) => JSON.stringify(before[name]) !== JSON.stringify(after[name]))
    .map((name) => {
      const path = ['changes', index, name];
      const value = after[name];
      return value === undefined ? { path } : { path, value };
    });
}
