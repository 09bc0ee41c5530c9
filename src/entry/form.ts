/** What a form is: how a list's item or a small record is typed as one sentence. */
import type { Kind } from '../book.ts';

/** How the words of a sentence find their fields; fields are named as in the file. */
export interface Grammar {
  /** The field of the number, quantity or name that the sentence begins with. */
  readonly lead?: string;
  /** What the lead is where it is left out: a bare `mug` is one mug. */
  readonly bare?: string;
  /** The field that a further number goes to without a word before it: `1 mug 25`. */
  readonly loose?: string;
  /** Fields whose words may stand in any order: ids and words of the book tell them apart. */
  readonly middle?: readonly string[];
  /** Words that set the field of the same name to yes. */
  readonly flags?: readonly string[];
  /** Word → the field that what follows it goes to. */
  readonly tails?: Readonly<Record<string, string>>;
  /** Words that may be there and say nothing: `over 150 firings`. */
  readonly skips?: readonly string[];
  /** The field that takes all words that are left. */
  readonly rest?: string;
  /** Whether numbers before first, second, lost or a cause say what came out of the kiln. */
  readonly outcome?: boolean;
}

/** One form: which field it fills, the option that takes it, and how it reads. */
export interface Form {
  readonly kind: Kind;
  /** The field's name; within a record inside the record, with its holder: `versions.base`. */
  readonly field: string;
  /** The option's name without hyphens; it may be given again and again. */
  readonly option: string;
  /** Its shape: capitals stand for what is filled in, brackets for what may be left out. */
  readonly shape: string;
  /** One sentence, without a full stop, of what the shape does not say by itself. */
  readonly about: string;
  readonly examples: readonly string[];
  readonly grammar: Grammar;
}

/** In a mapping, the name and the value of an entry. */
export const ENTRY_KEY = 'key';
export const ENTRY_VALUE = 'value';
