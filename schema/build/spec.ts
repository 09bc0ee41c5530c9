/** What the program knows of a field, derived from its schema. */
import type { Kind } from '../../src/book.ts';

/** How a scalar's text is read: `paid` is a day or `no`, `discount` an amount or a percentage. */
export type ScalarType =
  | 'text'
  | 'day'
  | 'paid'
  | 'time'
  | 'amount'
  | 'rate'
  | 'number'
  | 'count'
  | 'quantity'
  | 'percent'
  | 'discount'
  | 'cone'
  // A number with its unit, which is kept as it is written.
  | 'measured'
  | 'power'
  | 'length'
  | 'heat-content';

interface Label {
  /** What to call the field in front of a person. */
  readonly title: string;
  /** A good value, as text; of lists and records as JSON. */
  readonly example: string;
}

/** `words` are the usual values of a text that may also be something else. */
export interface ScalarSpec extends Label {
  readonly type: ScalarType;
  readonly words?: readonly string[];
}

/** One of a few words. */
export interface WordSpec extends Label {
  readonly type: 'word';
  readonly words: readonly string[];
}

/** The id of a record of one of the kinds `to`, or one of `words`. */
export interface ReferenceSpec extends Label {
  readonly type: 'reference';
  readonly to: readonly Kind[];
  readonly words?: readonly string[];
}

export interface ListSpec extends Label {
  readonly type: 'list';
  readonly of: FieldSpec;
}

/** Free keys: one of `keys`, ids of the kinds `keysTo`, or any word. */
export interface MapSpec extends Label {
  readonly type: 'map';
  readonly of: FieldSpec;
  /** Name in values.json of the form that the keys have. */
  readonly keyType: string;
  readonly keys?: readonly string[];
  readonly keysTo?: readonly Kind[];
}

/** Named fields; exactly one of `oneOf` must be there, at most one of `atMostOneOf` may be. */
export interface RecordSpec extends Label {
  readonly type: 'record';
  readonly fields: Readonly<Record<string, FieldSpec>>;
  readonly required: readonly string[];
  readonly oneOf?: readonly string[];
  readonly atMostOneOf?: readonly string[];
}

/** A record, or another value. */
export interface EitherSpec extends Label {
  readonly type: 'either';
  readonly record: FieldSpec;
  readonly other: FieldSpec;
}

export type FieldSpec =
  ScalarSpec | WordSpec | ReferenceSpec | ListSpec | MapSpec | RecordSpec | EitherSpec;

/**
 * What a field can move of all that the events come to: nothing, what happens from the record's earliest
 * day on, or all.
 */
export type Moves = 'nothing' | 'date' | 'all';

/** What a field moves; of a record, or a list of records, what each field in it does. */
export type Moved = Moves | { readonly [key: string]: Moved };
