/** Texts to typed values: sound raw records become the records that the rest of the program reckons with. */
import type {
  FieldSpec,
  RecordSpec,
  ScalarSpec,
  ScalarType,
} from '../../schema/generated/fields.js';
import { FIELDS } from '../../schema/generated/fields.js';
import type { Discount, Kind, RecordOf, Studio } from '../book.ts';
import { camelCase } from '../camel-case.ts';
import { parseCone } from '../number/cone.ts';
import { decimal, type Decimal } from '../number/decimal.ts';
import { parseHeatContent, parseLength, parsePower, parseQuantity } from '../number/unit.ts';
import { cached } from '../once.ts';
import { isList, isMap, newTable, type Raw, type RawMap } from '../read/raw.ts';

/** Where a record comes from. */
interface Origin {
  readonly id: string;
  /** Path of its file from the studio's root, with forward slashes. */
  readonly file: string;
}

type ReadValue = (raw: Raw) => unknown;
type Fields = Record<string, unknown>;

const HUNDREDTH = decimal('0.01');

// Percentages and cones recur in every record, so each text is read once; a book has few of them.
const fraction = cached((text: string) => decimal(text.slice(0, -1)).times(HUNDREDTH));
const discount = cached((text: string): Discount =>
  text.endsWith('%') ? { percent: fraction(text) } : { amount: decimal(text) },
);
const cone = cached((text: string) => soundValue(parseCone(text), text));

const SCALARS: Readonly<Record<ScalarType, (text: string) => unknown>> = {
  text: asItStands,
  day: asItStands,
  paid: asItStands,
  time: asItStands,
  amount: decimal,
  rate: decimal,
  number: decimal,
  count: Number,
  quantity: (text) => soundValue(parseQuantity(text), text),
  percent: fraction,
  discount,
  cone,
  measured: asItStands,
  length: (text): Decimal => soundValue(parseLength(text), text),
  power: (text): Decimal => soundValue(parsePower(text), text),
  'heat-content': (text) => soundValue(parseHeatContent(text), text),
};

type FieldsReader = (raw: RawMap, into: Fields) => void;

/** Made for a kind when its first record comes: many commands meet few kinds. */
const readerOf = cached((kind: Kind | 'studio') => fieldsReader(FIELDS[kind]));

/**
 * The typed record of a raw one that `checkFile` found sound: decimals exact, percentages as
 * fractions of 1, counts as numbers, quantities and cones read, keys in camelCase; the keys of free
 * maps stay. Throws a RangeError on a raw record that is not sound.
 */
export function typeRecord<K extends Kind>(kind: K, raw: RawMap, origin: Origin): RecordOf[K] {
  const record: Fields = { id: origin.id, file: origin.file };
  readerOf(kind)(raw, record);
  return record as unknown as RecordOf[K];
}

/** The typed settings of a sound `studio.yaml`, as `typeRecord`. */
export function typeStudio(raw: RawMap, file: string): Studio {
  const studio: Fields = { file };
  readerOf('studio')(raw, studio);
  return studio as unknown as Studio;
}

/** A function that fills a record with the typed fields of a raw one. */
function fieldsReader(spec: RecordSpec): FieldsReader {
  const fields = new Map(
    Object.entries(spec.fields).map(([key, field]) => [
      key,
      { name: camelCase(key), read: reader(field) },
    ]),
  );
  return (raw, into) => {
    for (const key in raw) {
      const field = fields.get(key);
      const value = raw[key];
      if (field && value !== undefined) into[field.name] = field.read(value);
    }
  };
}

function reader(spec: FieldSpec): ReadValue {
  if (isScalar(spec)) {
    const read = SCALARS[spec.type];
    return (raw) => (typeof raw === 'string' ? read(raw) : unsound(raw));
  }
  switch (spec.type) {
    case 'list':
      return listReader(reader(spec.of));
    case 'map':
      return mapReader(reader(spec.of));
    case 'record':
      return recordReader(spec);
    case 'either':
      return eitherReader(reader(spec.record), reader(spec.other));
    case 'word':
    case 'reference':
      return asItStands;
  }
}

function isScalar(spec: FieldSpec): spec is ScalarSpec {
  return spec.type in SCALARS;
}

function listReader(item: ReadValue): ReadValue {
  return (raw) => (isList(raw) ? raw.map(item) : unsound(raw));
}

function recordReader(spec: RecordSpec): ReadValue {
  const fill = fieldsReader(spec);
  return (raw) => {
    if (!isMap(raw)) return unsound(raw);
    const record: Fields = {};
    fill(raw, record);
    return record;
  };
}

// Without a prototype, so that a key can be any word.
function mapReader(value: ReadValue): ReadValue {
  return (raw) => {
    if (!isMap(raw)) return unsound(raw);
    const map = newTable<unknown>();
    for (const [key, item] of Object.entries(raw)) map[key] = value(item);
    return map;
  };
}

function eitherReader(record: ReadValue, other: ReadValue): ReadValue {
  return (raw) => (isMap(raw) ? record(raw) : other(raw));
}

function asItStands(raw: Raw): Raw {
  return raw;
}

function soundValue<T>(value: T | undefined, text: string): T {
  return value ?? unsound(text);
}

function unsound(raw: Raw): never {
  throw new RangeError(`not a sound value: ${JSON.stringify(raw)}`);
}
