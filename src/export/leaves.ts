/** Turns a field of a record into the columns that hold it: what has a unit takes two, a discount two. */
import { capitalised } from '../in-words.ts';
import { camelCase } from '../camel-case.ts';
import type { FieldSpec, RecordSpec, ScalarType } from '../../schema/generated/fields.js';
import type { Kind } from '../book.ts';
import { decimal } from '../number/decimal.ts';
import type { Cell, Column, ColumnType } from '../report/table.ts';

/** One column of a flattened record. */
export interface Leaf {
  readonly column: Column;
  /** The kind whose id it is, where it can be of one only. */
  readonly to: Kind | undefined;
  readonly required: boolean;
  /** The cell of a field's typed value; null for none. */
  readonly pick: (value: unknown) => Cell;
}

/** Fields of a typed record, by their names in camelCase. */
export type FieldValues = Readonly<Record<string, unknown>>;

const TYPES: Readonly<Partial<Record<ScalarType, ColumnType>>> = {
  day: 'date',
  amount: 'money',
  rate: 'quantity',
  number: 'quantity',
  count: 'count',
  percent: 'fraction',
  power: 'quantity',
};

/** The columns of all fields of a record that are no lists and no maps. */
export function recordLeaves(spec: RecordSpec): Leaf[] {
  return Object.entries(spec.fields).flatMap(([key, field]) => {
    const name = camelCase(key);
    const isRequired = spec.required.includes(key);
    return fieldLeaves(name, field).map((leaf) => ({
      ...leaf,
      required: leaf.required && isRequired,
      pick: (value: unknown) => leaf.pick((value as FieldValues | undefined)?.[name]),
    }));
  });
}

/** The columns of one value; `pick` takes the value itself. */
export function fieldLeaves(name: string, spec: FieldSpec): Leaf[] {
  switch (spec.type) {
    case 'list':
    case 'map':
      return [];
    case 'record':
      return recordLeaves(spec).map((leaf) => within(name, leaf));
    case 'either':
      return eitherLeaves(name, spec.record, spec.other);
    case 'quantity':
      return measured(name, spec.title, (value) => (value as { unit: string }).unit);
    case 'measured':
      return writtenMeasure(name, spec.title);
    case 'heat-content':
      return measured(name, spec.title, (value) => {
        const { energy, per } = value as { energy: string; per: string };
        return `${energy}/${per}`;
      });
    case 'discount':
      return [
        leaf(`${name}Amount`, `${spec.title}, amount`, { type: 'money', pick: field('amount') }),
        leaf(`${name}Percent`, `${spec.title}, share`, {
          type: 'fraction',
          pick: field('percent'),
        }),
      ].map((each) => ({ ...each, required: false }));
    case 'reference': {
      const [only, ...others] = spec.to;
      const to = others.length === 0 && spec.words === undefined ? only : undefined;
      return [{ ...leaf(name, spec.title, { type: 'id' }), to }];
    }
    // A spreadsheet would take cone 05 for the number 5, which is another cone.
    case 'cone':
      return [leaf(name, spec.title, { type: 'text', pick: (value) => `cone ${String(value)}` })];
    case 'length':
      return [leaf(name, `${spec.title}, mm`, { type: 'quantity' })];
    case 'word':
      return [leaf(name, spec.title, { type: 'text' })];
    case 'text':
    case 'day':
    case 'paid':
    case 'time':
    case 'amount':
    case 'rate':
    case 'number':
    case 'count':
    case 'percent':
    case 'power':
      return [leaf(name, spec.title, { type: TYPES[spec.type] ?? 'text' })];
  }
}

/** A record or another value: both in the columns of the other, and the record's own beside them. */
function eitherLeaves(name: string, record: FieldSpec, other: FieldSpec): Leaf[] {
  const own = record.type === 'record' ? recordLeaves(record) : [];
  const shared = fieldLeaves(name, other).map((each) => ({
    ...each,
    pick: (value: unknown) => each.pick((value as FieldValues | undefined)?.['quantity'] ?? value),
  }));
  const more = own.filter(({ column }) => !column.key.startsWith('quantity'));
  return [...shared, ...more.map((each) => within(name, each))].map((each) => ({
    ...each,
    required: false,
  }));
}

/** A column of a record that stands in another one. */
function within(name: string, { column, ...rest }: Leaf): Leaf {
  const key = `${name}${capitalised(column.key)}`;
  return { ...rest, column: { ...column, key } };
}

function measured(name: string, title: string, unitOf: (value: unknown) => string): Leaf[] {
  return [
    leaf(name, title, { type: 'quantity', pick: field('value') }),
    leaf(`${name}Unit`, `${title}, unit`, { type: 'text', pick: unitOf }),
  ];
}

/** A number with its unit, as it is written in the record: `52 mi`. */
function writtenMeasure(name: string, title: string): Leaf[] {
  const part = (value: unknown, at: number): string => String(value).split(' ')[at] ?? '';
  return [
    leaf(name, title, { type: 'quantity', pick: (value) => decimal(part(value, 0)) }),
    leaf(`${name}Unit`, `${title}, unit`, { type: 'text', pick: (value) => part(value, 1) }),
  ];
}

interface LeafOf {
  readonly type: ColumnType;
  /** Is never given undefined. */
  readonly pick?: (value: unknown) => Cell;
}

function leaf(key: string, title: string, { type, pick = asItIs }: LeafOf): Leaf {
  return {
    column: { key, title, type },
    to: undefined,
    required: true,
    pick: (value) => (value === undefined ? null : pick(value)),
  };
}

function asItIs(value: unknown): Cell {
  return value as Cell;
}

function field(name: string): (value: unknown) => Cell {
  return (value) => ((value as FieldValues)[name] ?? null) as Cell;
}
