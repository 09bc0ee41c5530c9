/** What is filled in where a record leaves it out: dates, and the prices of what is sold. */
import { FIELDS } from '../../schema/generated/fields.js';
import type { Day, Kind } from '../book.ts';
import { inForce } from '../in-force.ts';
import {
  isList,
  isMap,
  mapping,
  textOrEmpty,
  withValue,
  type Raw,
  type RawMap,
} from '../read/raw.ts';
import type { Lexicon } from './lexicon.ts';

/** What sentences and defaults are read by. */
export interface EntryGround {
  readonly lexicon: Lexicon;
  /** The day that a record without one is of. */
  readonly day: Day;
}

/** The record with its date, its lines' dates and its lines' prices, as far as the book tells them. */
export function withDefaults(kind: Kind, fields: RawMap, ground: EntryGround): RawMap {
  const dated = withDay(kind, fields, ground.day);
  return FILLED_IN[kind]?.(dated, ground) ?? dated;
}

/** The record with its date, where it is of a kind that has one. */
export function withDay(kind: Kind, fields: RawMap, day: Day): RawMap {
  return 'date' in FIELDS[kind].fields ? led(fields, 'date', day) : fields;
}

type Fill = (fields: RawMap, ground: EntryGround) => RawMap;

const FILLED_IN: Readonly<Partial<Record<Kind, Fill>>> = {
  recipes: (fields, { day }) =>
    eachItem(fields, 'versions', (version) => led(version, 'from', day)),
  pieces: (fields) =>
    ['lost', 'gone'].reduce(
      (lot, name) => eachItem(lot, name, (line) => led(line, 'date', textOrEmpty(lot['date']))),
      fields,
    ),
  advances: (fields, { day }) => eachItem(fields, 'refunded', (line) => led(line, 'date', day)),
  firings: (fields, { lexicon }) => withReading(lexicon, fields),
  orders: (fields, ground) =>
    eachItem(fields, 'lines', (line) => priced(ground, { kind: 'orders', fields }, line)),
  sales: (fields, ground) =>
    eachItem(fields, 'lines', (line) => priced(ground, { kind: 'sales', fields }, line)),
};

/** A field that stands first, where it is not there. */
function led(fields: RawMap, name: string, value: string): RawMap {
  if (fields[name] !== undefined) return fields;
  return mapping([[name, value], ...Object.entries(fields)]);
}

function eachItem(fields: RawMap, name: string, change: (item: RawMap) => RawMap): RawMap {
  const list = fields[name];
  if (!isList(list)) return fields;
  const items = list.map((item) => (isMap(item) ? change(item) : item));
  return withValue(fields, [name], items) as RawMap;
}

/** A record whose lines have prices. */
interface PricedRecord {
  readonly kind: 'orders' | 'sales';
  readonly fields: RawMap;
}

/** A line of a sale or an order with the product of the lot that it names, and with its price. */
function priced({ lexicon }: EntryGround, { kind, fields }: PricedRecord, typed: RawMap): RawMap {
  const line = withProduct(lexicon, typed);
  if (line['price'] !== undefined) return line;
  const price = priceOf({ lexicon, day: textOrEmpty(fields['date']) }, fields, line);
  if (price === undefined) return line;
  return lineInOrder(kind, mapping([...Object.entries(line), ['price', price]]));
}

function withProduct(lexicon: Lexicon, line: RawMap): RawMap {
  const { product, class: taught, for: other } = line;
  if ((product ?? taught ?? other) !== undefined) return line;
  const made = fieldOfRecord({ lexicon, day: '' }, line['lot'], 'product');
  return made === undefined ? line : mapping([['product', made], ...Object.entries(line)]);
}

// A one-off's own price stands over its product's; a second and a trade buyer have prices of their own.
function priceOf(on: EntryGround, sale: RawMap, line: RawMap): string | undefined {
  if (line['class'] !== undefined) return fieldOfRecord(on, line['class'], 'fee');
  const product = line['product'];
  if (line['grade'] === 'second') return fieldOfRecord(on, product, 'second');
  if (fieldOfRecord(on, sale['channel'], 'kind') === 'wholesale')
    return fieldOfRecord(on, product, 'wholesale');
  return fieldOfRecord(on, line['lot'], 'price') ?? fieldOfRecord(on, product, 'price');
}

/** A firing whose meter lacks the reading before it gets the last one of its kiln. */
function withReading(lexicon: Lexicon, firing: RawMap): RawMap {
  const { meter } = firing;
  if (!isMap(meter) || meter['before'] !== undefined) return firing;
  const before = lastReading(lexicon, firing);
  if (before === undefined) return firing;
  return withValue(
    firing,
    ['meter'],
    mapping([['before', before], ...Object.entries(meter)]),
  ) as RawMap;
}

function lastReading(lexicon: Lexicon, { kiln, date }: RawMap): string | undefined {
  const readings = lexicon.records(['firings']).flatMap(({ id, raw }) => {
    const meter = isMap(raw) ? raw['meter'] : undefined;
    const after = isMap(meter) ? textOrEmpty(meter['after']) : '';
    if (!isMap(raw) || raw['kiln'] !== kiln || after === '') return [];
    return [{ after, time: `${textOrEmpty(raw['date'])} ${textOrEmpty(raw['started'])} ${id}` }];
  });
  const earlier = readings.filter(({ time }) => time.slice(0, 10) <= textOrEmpty(date));
  return earlier.sort((a, b) => (a.time < b.time ? -1 : 1)).at(-1)?.after;
}

/** The text of a field of the record that an id names, as it is on the day. */
function fieldOfRecord(
  { lexicon, day }: EntryGround,
  id: Raw | undefined,
  field: string,
): string | undefined {
  const raw = typeof id === 'string' ? lexicon.find(id)?.raw : undefined;
  const value = isMap(raw) ? rawInForce(raw, day)[field] : undefined;
  return typeof value === 'string' ? value : undefined;
}

function lineInOrder(kind: PricedRecord['kind'], line: RawMap): RawMap {
  const lines = FIELDS[kind].fields['lines'];
  const names = lines?.type === 'list' && lines.of.type === 'record' ? lines.of.fields : {};
  const known = Object.keys(names).filter((name) => line[name] !== undefined);
  const unknown = Object.keys(line).filter((name) => names[name] === undefined);
  return mapping([...known, ...unknown].map((name) => [name, line[name] ?? '']));
}

/** The fields of a raw definition that are in force on a day; changes of no sound form are passed over. */
export function rawInForce(raw: RawMap, day: Day): RawMap {
  const { changes } = raw;
  if (!isList(changes) || !changes.every(isChange)) return raw;
  return inForce({ ...raw, changes }, day);
}

type RawChange = RawMap & { readonly from: string; readonly without?: readonly string[] };

/** Whether a raw value has the form of a change. */
export function isChange(raw: Raw): raw is RawChange {
  if (!isMap(raw) || typeof raw['from'] !== 'string') return false;
  const { without = [] } = raw;
  return isList(without) && without.every((name) => typeof name === 'string');
}
