/** Problems are values: what is wrong, where, and how to put it right. */
import type { Kind } from './book.ts';

export type Severity = 'error' | 'warning';

/**
 * A place in the book named by file and path of keys, before lines are counted.
 * Lines and columns are found late, and only for the problems that are shown.
 */
export interface Spot {
  /** Path of the file from the studio's root, with forward slashes. */
  readonly file: string;
  /** Keys and list indexes from the file's root, as written in the file: `['s260308kt', 'lines', 0, 'price']`. */
  readonly path: readonly (string | number)[];
  /** Whether the key or (the default) the value is meant. */
  readonly on?: 'key' | 'value';
  /** A key beside the value: what is meant goes on as far as that. */
  readonly through?: string;
}

/** A text where an id goes that is nowhere. */
export interface Mistyped {
  readonly id: string;
  /** The kinds that it may name. */
  readonly to: readonly Kind[];
  /** Words that may be in its place. */
  readonly words: readonly string[];
  /** The kind of channel that is wanted, where it is not any. */
  readonly channel?: string;
}

/** A place in a file, counted from 1. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  /** How many columns the marked text is wide; at least 1. */
  readonly width: number;
  /** The whole source line, for the caret. Empty when the file can't be read. */
  readonly source: string;
}

/** What a rule finds, at a spot. */
export interface Finding {
  readonly rule: string;
  readonly severity: Severity;
  readonly at: Spot | Place;
  /** What is wrong, in one sentence without a full stop. */
  readonly message: string;
  /** How to put it right, in one sentence without a full stop. */
  readonly hint: string;
  /** Ids of records that it has to do with, besides its own. */
  readonly concerns?: readonly string[];
  /** What was most likely meant by a text that can't be an id: known only once all ids are. */
  readonly meaning?: Mistyped;
  readonly related?: readonly { readonly at: Spot | Place; readonly message: string }[];
  /** The figure that is doubted, as it is told: an answer to the doubt names it. */
  readonly figure?: string;
  /** Set on the one that tells of others, which are only counted: how many they are. */
  readonly untold?: number;
}

/** A finding whose places have been counted. */
export interface Problem {
  readonly rule: string;
  readonly severity: Severity;
  readonly place: Place;
  /** Id of the record it is in, or name of the setting; absent where only the place is known. */
  readonly record?: string;
  readonly message: string;
  readonly hint: string;
  readonly related: readonly { readonly place: Place; readonly message: string }[];
  /** As in `Finding`. */
  readonly untold?: number;
}
