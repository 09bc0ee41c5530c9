/** Fields that no table names: which one was meant, or which number a comma cut in two. */
import type { FieldSpec, RecordSpec } from '../../../schema/generated/fields.js';
import { nearest } from '../../nearest.ts';
import { listed, withArticle } from '../finding.ts';
import { everydayDigits } from './numerals.ts';
import { asRecord, isObject, takesNumber, type Spotted } from './place.ts';
import { thing, type RecordFault } from './record-faults.ts';
import { shown } from './say.ts';

/** A record has a field that no table names. */
export function unknownField(place: Spotted, key: string): RecordFault | undefined {
  const record = asRecord(place.spec);
  if (record === undefined) return undefined;
  return (
    numberInTwo(place, record, key) ?? {
      path: [...place.path, key],
      on: 'key',
      message: `${withArticle(thing(record))} has no field ${shown(key)}`,
      hint: fieldHint(place, record, key),
    }
  );
}

/** A comma within a number in braces ends the entry: `cost: 1,212.50` is a cost of 1 and one entry more. */
function numberInTwo(
  { value, path }: Spotted,
  { fields }: RecordSpec,
  key: string,
): RecordFault | undefined {
  if (!isObject(value) || !/^\d+(?:\.\d+)?$/.test(key)) return undefined;
  const numbers = Object.entries(value).filter(
    ([name, each]) => typeof each === 'number' && takesNumber(fields[name]),
  );
  const amounts = numbers.filter(([name]) => fields[name]?.type === 'amount');
  const [name, before] = (amounts.length === 1 ? amounts[0] : numbers.at(-1)) ?? [];
  if (name === undefined) return undefined;
  const whole = `${String(before)},${key}`;
  return {
    path: [...path, name],
    through: key,
    message: `${name} is ${whole}, and in braces the comma cuts that in two`,
    hint: `write ${listed(everydayDigits(whole), 'or')}, without a comma`,
  };
}

/** The field of the same record that an unknown one was most likely meant to be, where it isn't there yet. */
export function meantField({ spec, value }: Spotted, key: string): string | undefined {
  const record = asRecord(spec);
  if (record === undefined || !isObject(value)) return undefined;
  const open = Object.keys(record.fields).filter((name) => !Object.hasOwn(value, name));
  const other = OTHER_NAMES.get(key.toLowerCase())?.find((name) => open.includes(name));
  const near = other ?? nearest(key.replaceAll('_', '-'), open);
  if (near !== undefined || homeOf(record, key) !== undefined) return near;
  return listMeant(record, open, Reflect.get(value, key));
}

/** Words that people use for fields of other names, however near they come to a third one. */
const OTHER_NAMES: ReadonlyMap<string, readonly string[]> = new Map(
  Object.entries({
    amount: ['price', 'cost', 'owed', 'quantity', 'count'],
    qty: ['count', 'quantity'],
    number: ['count', 'quantity'],
    pieces: ['count', 'made'],
    total: ['cost', 'amount'],
    items: ['lines'],
    item: ['product', 'material'],
    customer: ['buyer'],
    client: ['buyer'],
    vendor: ['supplier', 'to'],
    seller: ['supplier', 'to'],
    shop: ['supplier', 'channel', 'to'],
    gallery: ['channel'],
    temperature: ['peak'],
    category: ['for'],
    description: ['note'],
    comment: ['note'],
    remark: ['note'],
  }),
);

/** The one list that is missing, for a list of a name that nobody knows. */
function listMeant(
  { fields, required }: RecordSpec,
  open: readonly string[],
  value: unknown,
): string | undefined {
  const lists = open.filter((name) => required.includes(name) && fields[name]?.type === 'list');
  return Array.isArray(value) && lists.length === 1 ? lists[0] : undefined;
}

function fieldHint(place: Spotted, record: RecordSpec, key: string): string {
  const meant = meantField(place, key);
  if (meant !== undefined) return `did you mean "${meant}"?`;
  const home = homeOf(record, key);
  if (home !== undefined) return `write ${key} in ${home}`;
  const present = isObject(place.value)
    ? Object.keys(place.value).filter((name) => name !== key)
    : [];
  const twice = nearest(
    key.replaceAll('_', '-'),
    present.filter((name) => Object.hasOwn(record.fields, name)),
  );
  if (twice !== undefined)
    return `${twice} is there already: take this one out if it says the same`;
  const fields = `the fields are ${listed(Object.keys(record.fields))}`;
  const isFree = isObject(place.value) && !Object.hasOwn(place.value, 'note');
  return isFree && record.fields['note'] ? `write note if it is a remark; ${fields}` : fields;
}

/** The field whose own records have the key. */
function homeOf(record: RecordSpec, key: string): string | undefined {
  const found = Object.entries(record.fields).find(([, spec]) => innerFields(spec, key));
  if (found === undefined) return undefined;
  return found[1].type === 'list' ? `an entry of ${found[0]}` : found[0];
}

function innerFields(spec: FieldSpec, key: string): boolean {
  const inner = asRecord(spec.type === 'list' ? spec.of : spec);
  return inner !== undefined && Object.hasOwn(inner.fields, key);
}
