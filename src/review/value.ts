/** Typed values of any field: whether two mean the same, and how one is written for people. */
import type { FieldSpec, RecordSpec } from '../../schema/generated/fields.js';
import type { Discount, Kind } from '../book.ts';
import { camelCase } from '../camel-case.ts';
import { type Decimal, decimal, isDecimal } from '../number/decimal.ts';
import { writtenMoney } from '../number/money.ts';
import {
  type Dimension,
  type HeatContent,
  type Quantity,
  dimensionOf,
  inBase,
} from '../number/unit.ts';

/** A typed record, or a part of one, by its fields in camelCase. */
export type TypedFields = Readonly<Record<string, unknown>>;

/** What is kept from the eyes of others. */
export interface Withheld {
  /** Words of people: names, notes, whatever is no id, date or figure. */
  readonly names: boolean;
  /** Figures of money. */
  readonly prices: boolean;
}

export const NOTHING_WITHHELD: Withheld = { names: false, prices: false };

/** What stands for a hidden value. */
export const NOT_SHOWN = '(not shown)';

/** Keys of lists whose order means something: firings follow each other, glazes lie over each other. */
const ORDERED: ReadonlySet<string> = new Set(['fired', 'glazes']);

/** Whether the order of a list's items means something, by the list's key. */
export function isOrdered(key: string): boolean {
  return ORDERED.has(key);
}

/** The fields of a record with the names that they have once they are typed. */
export function typedFieldsOf(spec: RecordSpec): readonly (readonly [string, string, FieldSpec])[] {
  const known = fieldsKnown.get(spec);
  if (known) return known;
  const fields = Object.entries(spec.fields).map(
    ([key, field]) => [key, camelCase(key), field] as const,
  );
  fieldsKnown.set(spec, fields);
  return fields;
}

const fieldsKnown = new WeakMap<RecordSpec, readonly (readonly [string, string, FieldSpec])[]>();

/**
 * A text that is the same for two values just when they mean the same: `40.0` and `40.00`, `4 x 25 lb`
 * and `100 lb`, keys and lines in another order. `key` is the field's, for some lists' order counts.
 */
export function meaningOf(spec: FieldSpec, value: unknown, key = ''): string {
  if (value === undefined) return '';
  if (Array.isArray(value) && spec.type === 'list') {
    const items = value.map((item: unknown) => meaningOf(spec.of, item));
    return `[${(isOrdered(key) ? items : items.sort()).join(',')}]`;
  }
  if (spec.type === 'either')
    return meaningOf(isFields(value) && 'material' in value ? spec.record : spec.other, value);
  if (!isFields(value)) return scalarMeaning(value);
  if (spec.type === 'record')
    return `{${typedFieldsOf(spec)
      .filter(([, name]) => value[name] !== undefined)
      .map(([own, name, field]) => `${own}:${meaningOf(field, value[name], own)}`)
      .join(',')}}`;
  if (spec.type === 'map')
    return `{${Object.keys(value)
      .sort()
      .map((own) => `${JSON.stringify(own)}:${meaningOf(spec.of, value[own])}`)
      .join(',')}}`;
  return scalarMeaning(value);
}

function scalarMeaning(value: unknown): string {
  if (isDecimal(value)) return value.toString();
  if (typeof value === 'string') return JSON.stringify(value);
  if (!isFields(value)) return String(value);
  if (isQuantity(value)) return quantityMeaning(value);
  return Object.keys(value)
    .sort()
    .map((key) => `${key}=${scalarMeaning(value[key])}`)
    .join('&');
}

/** A quantity's value in the base of what it measures, so that any two can be compared. */
export function comparable({ value, unit }: Quantity): { value: Decimal; of: Dimension } {
  return { value: inBase(value, unit), of: dimensionOf(unit) };
}

function quantityMeaning(quantity: Quantity): string {
  const { value, of } = comparable(quantity);
  return `${value.toString()} ${of}`;
}

/** Whether a value has named parts: a record, a map, a quantity, a discount. */
export function isFields(value: unknown): value is TypedFields {
  return typeof value === 'object' && value !== null && !Array.isArray(value) && !isDecimal(value);
}

/** Whether a value is a quantity with its unit. */
export function isQuantity(value: unknown): value is Quantity {
  return isFields(value) && 'unit' in value && 'text' in value;
}

/** How values are written. */
export interface ValueWriting {
  readonly minorDigits: number;
  readonly hidden: Withheld;
}

/** A value for people in one line; what is hidden is said to be. */
export function valueText(spec: FieldSpec, value: unknown, writing: ValueWriting): string {
  if (isWithheld(spec, value, writing.hidden)) return NOT_SHOWN;
  if (Array.isArray(value) && spec.type === 'list')
    return value.map((item: unknown) => valueText(spec.of, item, writing)).join('; ');
  if (spec.type === 'either')
    return valueText(
      isFields(value) && 'material' in value ? spec.record : spec.other,
      value,
      writing,
    );
  if (isFields(value) && spec.type === 'record') return recordText(spec, value, writing);
  if (isFields(value) && spec.type === 'map')
    return Object.keys(value)
      .map((key) => `${key} ${valueText(spec.of, value[key], writing)}`)
      .join(', ');
  return scalarInWords(spec, value, writing);
}

/** The fields of a record that are there: `product mug, count 2, price 38.00`. */
function recordText(spec: RecordSpec, value: TypedFields, writing: ValueWriting): string {
  return typedFieldsOf(spec)
    .filter(([, name, field]) => {
      const part = value[name];
      return part !== undefined && !isWithheld(field, part, writing.hidden);
    })
    .map(([key, name, field]) => `${key} ${valueText(field, value[name], writing)}`)
    .join(', ');
}

/** Whether a value is to be kept from the eyes of others. */
function isWithheld(spec: FieldSpec, value: unknown, hidden: Withheld): boolean {
  if (spec.type === 'text') return hidden.names;
  if (spec.type === 'amount' || spec.type === 'rate') return hidden.prices;
  return spec.type === 'discount' && hidden.prices && isFields(value) && 'amount' in value;
}

const HUNDRED = decimal(100);

function scalarInWords(spec: FieldSpec, value: unknown, { minorDigits }: ValueWriting): string {
  if (spec.type === 'amount' && isDecimal(value)) return writtenMoney(value, minorDigits);
  if (spec.type === 'percent' && isDecimal(value)) return percentText(value);
  if (spec.type === 'power' && isDecimal(value)) return `${value.toString()} kW`;
  if (spec.type === 'discount') return discountText(value as Discount, minorDigits);
  if (spec.type === 'heat-content') return heatText(value as HeatContent);
  return isQuantity(value) ? value.text : String(value);
}

function percentText(value: Decimal): string {
  return `${value.times(HUNDRED).toString()}%`;
}

function discountText(discount: Discount, minorDigits: number): string {
  return 'percent' in discount
    ? percentText(discount.percent)
    : writtenMoney(discount.amount, minorDigits);
}

function heatText({ value, energy, per }: HeatContent): string {
  return `${value.toString()} ${energy}/${per}`;
}

/** The kinds that a reference may name; none for any other field. */
export function referencesIn(spec: FieldSpec): readonly Kind[] {
  return spec.type === 'reference' ? spec.to : [];
}
