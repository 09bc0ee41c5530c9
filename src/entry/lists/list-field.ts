/** The fields that a column of a list may fill: those of a record, those of its lines, and some of the list alone. */
import { FIELDS, type FieldSpec } from '../../../schema/generated/fields.js';
import type { Kind } from '../../book.ts';
import { itemSpec } from '../fields.ts';

/** Where the value of a column goes. */
export interface ListField {
  /** `list`: it is looked at, and goes nowhere. */
  readonly within: 'record' | 'line' | 'list';
  readonly name: string;
  readonly spec: FieldSpec;
}

const AMOUNT: FieldSpec = { type: 'amount', title: 'Amount', example: '40' };
const TEXT_FIELD: FieldSpec = { type: 'text', title: 'Text', example: 'Transfer' };

/**
 * What only a list has: `total` of what a buyer was charged, `net` of what came of it; `amount` of a line;
 * `in` and `out` of a bank.
 */
const OF_LISTS: Readonly<Record<string, FieldSpec>> = {
  total: AMOUNT,
  net: AMOUNT,
  amount: AMOUNT,
  in: AMOUNT,
  out: AMOUNT,
};

/** Without a kind a list is only compared. */
const COMPARED: Readonly<Record<string, FieldSpec>> = {
  date: { type: 'day', title: 'Date', example: '2026-03-08' },
  ...OF_LISTS,
  note: TEXT_FIELD,
};

/** The field of a name; a line's discount is `line-discount`, beside the sale's. */
export function listField(kind: Kind | undefined, name: string): ListField | undefined {
  if (!kind) return ofList(COMPARED, name);
  const own = FIELDS[kind].fields[name];
  if (isSingle(own)) return { within: 'record', name, spec: own };
  const inLine = name === 'line-discount' ? 'discount' : name;
  const item = lineFields(kind)[inLine];
  if (isSingle(item)) return { within: 'line', name: inLine, spec: item };
  return ofList(OF_LISTS, name);
}

/** The names of all fields, for did-you-mean. */
export function listFieldNames(kind: Kind | undefined): readonly string[] {
  if (!kind) return Object.keys(COMPARED);
  const names = [
    ...Object.keys(FIELDS[kind].fields),
    'line-discount',
    ...Object.keys(lineFields(kind)),
  ];
  return [...new Set([...names, ...Object.keys(OF_LISTS)])].filter((name) => listField(kind, name));
}

function ofList(specs: Readonly<Record<string, FieldSpec>>, name: string): ListField | undefined {
  const spec = Object.hasOwn(specs, name) ? specs[name] : undefined;
  return spec && { within: 'list', name, spec };
}

function lineFields(kind: Kind): Readonly<Record<string, FieldSpec>> {
  const { lines } = FIELDS[kind].fields;
  return (lines && itemSpec(lines)?.fields) ?? {};
}

function isSingle(spec: FieldSpec | undefined): spec is FieldSpec {
  return spec !== undefined && !['list', 'map', 'record', 'either'].includes(spec.type);
}
