/** What the catalogue says of a command: enough for the command line, help, completion and the man page. */
import type { Kind } from '../book.ts';
import type { Command } from './world.ts';

/**
 * What completion offers where a value stands: ids of records of some kinds, firings that are still in
 * the kiln, folders, the fields of the record that the argument names, business years and quarters, tax
 * sheets, or what may come next in a line of several values.
 */
export type Offers =
  readonly Kind[] | 'in-kiln' | 'folders' | 'fields' | 'periods' | 'sheets' | 'sentence';

/** An option as it is typed: `--as <format>`, or `--where` without a value. */
export interface OptionSpec {
  readonly flags: string;
  readonly about: string;
  readonly choices?: readonly string[];
  readonly offers?: Offers;
  /** Whether it may be given again and again. */
  readonly repeats?: boolean;
}

/** What stands after a command's name: `<id>`, or in brackets what may be left out. */
export interface ArgumentSpec {
  readonly form: string;
  readonly about: string;
  readonly choices?: readonly string[];
  readonly offers?: Offers;
}

/** One command. */
export interface CommandSpec {
  readonly name: string;
  /** What may stand after the name: `[id]`. */
  readonly argument?: ArgumentSpec;
  /** What may stand after that, again and again: `[changes...]`. */
  readonly more?: ArgumentSpec;
  /** Whether the fields of the kind that the argument names are options too; it prints its own help. */
  readonly takesFields?: boolean;
  readonly about: string;
  /** Whole command lines that work in any studio of the demo's kind; help leads with them. */
  readonly examples: readonly string[];
  readonly options: readonly OptionSpec[];
  /** Loads the command; nothing of it is loaded before it is run. */
  readonly load: () => Promise<Command>;
}
