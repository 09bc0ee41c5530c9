/** The shape of a rule: a name, a severity and a pure function from the book to findings. */
import type { Book } from '../book.ts';
import type { Finding, Severity, Spot } from '../problem.ts';

/** What a rule says of one spot; the rule's name and severity are added by `runRules`. */
export interface RuleFinding {
  readonly at: Spot;
  readonly message: string;
  readonly hint: string;
  readonly related?: Finding['related'];
}

export interface Rule {
  /** Name in kebab-case, the same as the file and the fixture folder. */
  readonly name: string;
  readonly severity: Severity;
  /** One sentence for the docs: what is wrong when this rule speaks. */
  readonly about: string;
  readonly find: (book: Book, day: string) => readonly RuleFinding[];
}
