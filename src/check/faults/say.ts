/** The sentences that name a value, what is wrong with it and how to write it. */
import { listed } from '../finding.ts';

/** A value that is not as it should be. */
export interface Said {
  /** The field, as in the file. */
  readonly name: string;
  /** The value as in the file, without quotes. */
  readonly text: string;
  /** A good value of this field. */
  readonly example: string;
  /** Whether a text has the form that the field wants; absent means that no form is known. */
  readonly fits?: (text: string) => boolean;
}

/** What is wrong, and how to mend it. */
export interface Wording {
  readonly message: string;
  readonly hint: string;
}

/** The words for a field without a value. */
export function emptyWording({ name, example }: Said): Wording {
  return {
    message: `${name} is empty`,
    hint: `write a value, such as ${example}, or take the line out`,
  };
}

/** Says what is wrong with a value. */
export type Words = (said: Said) => Wording;

/** A value as it may stand in a sentence: in quotes, and not longer than a line. */
export function shown(text: string): string {
  return text.length > LONGEST ? `"${text.slice(0, LONGEST)}…"` : `"${text}"`;
}

const LONGEST = 40;

/** The usual sentence: the value, what it is not, and how to write it. */
export function amiss({ name, text }: Said, what: string, hint: string): Wording {
  return { message: `${name} is ${shown(text)}, ${what}`, hint };
}

/** The hint that shows the field with a good value. */
export function suchAs({ name, example }: Said): string {
  return `write it as ${name}: ${example}`;
}

/**
 * The hint that gives the one or the few ways to write what was meant; undefined where none of the
 * answers has the field's form.
 */
export function write(
  { fits }: Said,
  answers: readonly (string | undefined)[],
  quotes = '',
): string | undefined {
  const given = answers.filter((answer) => answer !== undefined && (fits?.(answer) ?? true));
  if (given.length === 0) return undefined;
  const whichever = given.length > 1 ? ', whichever you mean' : '';
  const written = given.map((answer) => `${quotes}${answer}${quotes}`);
  return `write ${listed(written, 'or')}${whichever}`;
}
