/** Compares two versions of a record field by field, by what the values mean. */
import type { FieldSpec, ListSpec, MapSpec, RecordSpec } from '../../schema/generated/fields.js';
import { typedFieldsOf, isFields, isOrdered, meaningOf, type TypedFields } from './value.ts';

/** A value that is not what it was. Undefined stands for a value that is not there. */
export interface FieldChange {
  /** Keys and list indexes as in the file: of the new version, or of the old one where it is gone. */
  readonly path: readonly (string | number)[];
  /** What the list's item is of, where it says so: `mug`. */
  readonly item?: string;
  readonly spec: FieldSpec;
  readonly before: unknown;
  readonly after: unknown;
}

interface ValuePair {
  readonly before: unknown;
  readonly after: unknown;
}

/** Where a comparison stands in a record. */
interface FieldPlace {
  readonly path: readonly (string | number)[];
  readonly item?: string;
}

/** All values of a record that mean something else than before, in the order of the schema's fields. */
export function fieldChanges(
  spec: RecordSpec,
  { before, after }: { readonly before: TypedFields; readonly after: TypedFields },
  where: FieldPlace = { path: [] },
): FieldChange[] {
  return typedFieldsOf(spec).flatMap(([key, name, field]) =>
    valueChanges(
      field,
      { before: before[name], after: after[name] },
      {
        ...where,
        path: [...where.path, key],
      },
    ),
  );
}

function valueChanges(spec: FieldSpec, pair: ValuePair, where: FieldPlace): FieldChange[] {
  const { before, after } = pair;
  const key = String(where.path.at(-1));
  if (before === after || meaningOf(spec, before, key) === meaningOf(spec, after, key)) return [];
  const whole = [{ ...where, spec, ...pair }];
  if (before === undefined || after === undefined) return whole;
  if (spec.type === 'record' && isFields(before) && isFields(after))
    return fieldChanges(spec, { before, after }, where);
  if (spec.type === 'map' && isFields(before) && isFields(after))
    return mapChanges(spec, { before, after }, where);
  if (spec.type !== 'list' || spec.of.type !== 'record') return whole;
  const items = itemChanges(spec, pair, where);
  // Nothing but the order is another.
  return items.length === 0 && isOrdered(key) ? whole : items;
}

function mapChanges(
  { of }: MapSpec,
  { before, after }: { readonly before: TypedFields; readonly after: TypedFields },
  where: FieldPlace,
): FieldChange[] {
  const keys = new Set([...Object.keys(before), ...Object.keys(after)]);
  return [...keys].flatMap((key) =>
    valueChanges(
      of,
      { before: before[key], after: after[key] },
      { ...where, path: [...where.path, key] },
    ),
  );
}

/** An item of a list with its place in it. */
interface ListItem {
  readonly index: number;
  readonly fields: TypedFields;
  readonly meaning: string;
  readonly name: string | undefined;
}

/**
 * Items that mean the same are passed over wherever they stand; of the others, those of one name are
 * compared in their order, then whatever is left in its order; the rest came or went.
 */
function itemChanges(spec: ListSpec, pair: ValuePair, where: FieldPlace): FieldChange[] {
  const of = spec.of as RecordSpec;
  const before = listItemsOf(of, pair.before);
  const after = listItemsOf(of, pair.after);
  takePairs(before, after, ({ meaning }) => meaning);
  const pairs = [
    ...takePairs(before, after, ({ name }) => name),
    ...takePairs(before, after, () => ''),
  ];
  const at = ({ index, name }: ListItem): FieldPlace => ({
    path: [...where.path, index],
    ...(name === undefined ? {} : { item: name }),
  });
  const whole = (item: ListItem, values: Partial<ValuePair>): FieldChange => ({
    ...at(item),
    spec: of,
    before: values.before,
    after: values.after,
  });
  return [
    ...pairs.flatMap(([old, now]) =>
      fieldChanges(of, { before: old.fields, after: now.fields }, at(now)),
    ),
    ...before.map((item) => whole(item, { before: item.fields })),
    ...after.map((item) => whole(item, { after: item.fields })),
  ];
}

function listItemsOf(spec: RecordSpec, list: unknown): ListItem[] {
  const items = (Array.isArray(list) ? list : []).filter(isFields);
  return items.map((fields, index) => ({
    index,
    fields,
    meaning: meaningOf(spec, fields),
    name: itemName(spec, fields),
  }));
}

/** What an item is of: its first reference, else the first day or word in it. */
function itemName(spec: RecordSpec, fields: TypedFields): string | undefined {
  for (const wanted of ['reference', 'day', 'word']) {
    const found = typedFieldsOf(spec).find(
      ([, name, field]) => field.type === wanted && fields[name] !== undefined,
    );
    const value = found && fields[found[1]];
    if (typeof value === 'string') return value;
  }
  return undefined;
}

/** Takes the items out of both lists that agree in a key, pair by pair, in their order. */
function takePairs(
  before: ListItem[],
  after: ListItem[],
  keyOf: (item: ListItem) => string | undefined,
): [ListItem, ListItem][] {
  const waiting = new Map<string, ListItem[]>();
  for (const item of before) {
    const key = keyOf(item);
    if (key !== undefined) waiting.set(key, [...(waiting.get(key) ?? []), item]);
  }
  const pairs: [ListItem, ListItem][] = [];
  for (const item of after) {
    const old = waiting.get(keyOf(item) ?? '\0')?.shift();
    if (old) pairs.push([old, item]);
  }
  drop(before, new Set(pairs.map(([old]) => old)));
  drop(after, new Set(pairs.map(([, now]) => now)));
  return pairs;
}

function drop(items: ListItem[], gone: ReadonlySet<ListItem>): void {
  items.splice(0, items.length, ...items.filter((item) => !gone.has(item)));
}
