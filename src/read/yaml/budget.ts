/** How much of a file is given to the yaml package, and what is said of what is too much. */
import { parseDocument, type Document } from 'yaml';
import { ALIAS, ANCHOR, TAG, TOO_DEEP, ofSign, type NodeRefusal, type Words } from './nodes.ts';
import { DEEPEST, MOST_IN_RECORD, sweep, type Stop } from './sweep.ts';

/** Why a text is not given to the package. */
export interface Overrun extends NodeRefusal {
  readonly why: Stop['why'];
}

/**
 * Says of a file's next piece why it is not to be given to the package; undefined where it may be. That
 * the file is too much as a whole is said once.
 */
export type Budget = (piece: string) => Overrun | undefined;

// A file that is full of records has about 200 characters to each, and few of them are not plain.
const FREE_PIECES = 10_000;
const PIECE_LENGTH = 200;

/** The budget of one file, all of it or its pieces in their order. */
export function newBudget(): Budget {
  let pieces = 0;
  let spent = { parts: 0, length: 0 };
  let isOver = false;
  return (text) => {
    if (isOver) return undefined;
    const { parts, stop } = sweep(text, spent);
    isOver = stop?.why === 'file';
    if (stop) return { why: stop.why, ...stopped(text, stop) };
    pieces += 1;
    spent = { parts: spent.parts + parts, length: spent.length + text.length };
    isOver = pieces > FREE_PIECES + spent.length / PIECE_LENGTH;
    if (!isOver) return undefined;
    const end = text.search(/[\r\n]|$/);
    return { why: 'file', span: { start: 0, end }, ...WORDS.file };
  };
}

function stopped(text: string, { why, at }: Stop): NodeRefusal {
  return SIGNS.has(why) ? ofSign(text, at, WORDS[why]) : { span: at, ...WORDS[why] };
}

const SIGNS: ReadonlySet<string> = new Set(['anchor', 'alias', 'tag']);

const THOUSANDS = MOST_IN_RECORD / 1000;

const WORDS: Readonly<Record<Stop['why'], Words>> = {
  anchor: ANCHOR,
  alias: ALIAS,
  tag: TAG,
  depth: TOO_DEEP,
  record: {
    message: `this record has more than ${THOUSANDS},000 lines, values, brackets and commas, and is not read`,
    hint: 'divide what is in it among several records',
  },
  file: {
    message: 'up to here the file has more values, brackets and lines than one file should have',
    hint: 'write one field a line without quotes or brackets, or divide the records among several files',
  },
};

/** Why a text as a whole can't be given to the package, in a few words; undefined where it can. */
export function tooMuch(text: string): { readonly at: number; readonly what: string } | undefined {
  const { stop } = sweep(text);
  return stop && { at: stop.at.start, what: SHORT[stop.why] };
}

const SHORT: Readonly<Record<Stop['why'], string>> = {
  anchor: 'an anchor (&)',
  alias: 'an alias (*)',
  tag: 'a tag (!)',
  depth: `more than ${DEEPEST} levels of nesting`,
  record: 'more than one record should have',
  file: 'more than one file should have',
};

/** A text as the package reads it. */
export function parsed(text: string): Document.Parsed {
  // The package compares each key with all others to find equal ones, which its callers do quicker.
  return parseDocument(text, { schema: 'failsafe', uniqueKeys: false, prettyErrors: false });
}

/** What comes of a text: the package's document, or why it is not given to it. */
type Read = { readonly document: Document.Parsed } | { readonly overrun: Overrun };

/** Reads a text within the budget of a file. */
export function readWithin(text: string): Read {
  const overrun = newBudget()(text);
  return overrun ? { overrun } : { document: parsed(text) };
}

let last: { readonly text: string; readonly read: Read } | undefined;

/** The same of a file's whole text, which is kept until that of another one is asked for. */
export function readOnce(text: string): Read {
  if (last?.text !== text) last = { text, read: readWithin(text) };
  return last.read;
}
