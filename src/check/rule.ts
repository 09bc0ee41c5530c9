/** The shape of a rule: a name, a severity and a pure function from the book to findings. */
import type { Book, Kind } from '../book.ts';
import type { Finding, Severity, Spot } from '../problem.ts';

/** What a rule says of one spot; the rule's name and severity are added by `runRules`. */
export interface RuleFinding {
  readonly at: Spot;
  readonly message: string;
  readonly hint: string;
  readonly related?: NonNullable<Finding['related']>;
}

/**
 * What the book leaves out because it could not be read or typed: rules say nothing that such a
 * record may well put right.
 */
export interface Unsound {
  /** Id → kind of the records that have faults of their own. */
  readonly ids: ReadonlyMap<string, Kind>;
  /** Every text in those records, the ids that they name among them. */
  readonly texts: ReadonlySet<string>;
  /** Kinds of which a whole file could not be read; `studio` where a setting has a fault. */
  readonly kinds: ReadonlySet<Kind | 'studio'>;
}

/** A book that leaves nothing out. */
export const NOTHING_UNSOUND: Unsound = { ids: new Map(), texts: new Set(), kinds: new Set() };

export interface Rule {
  /** Name in kebab-case, the same as the file and the fixture folder. */
  readonly name: string;
  readonly severity: Severity;
  /** One sentence for the docs: what is wrong when this rule speaks. */
  readonly about: string;
  readonly find: (book: Book, day: string, unsound: Unsound) => readonly RuleFinding[];
}
