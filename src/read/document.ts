/** Gives texts to the yaml package; a whole file is given to it once, whoever asks for it. */
import { parseDocument, type Document } from 'yaml';
import { newBudget, type Overrun } from './budget.ts';

/** A text as the package reads it. */
export function parsed(text: string): Document.Parsed {
  // The package compares each key with all others to find equal ones, which its callers do quicker.
  return parseDocument(text, { schema: 'failsafe', uniqueKeys: false, prettyErrors: false });
}

/** What comes of a text: the package's document, or why it is not given to it. */
export type Read = { readonly document: Document.Parsed } | { readonly overrun: Overrun };

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
