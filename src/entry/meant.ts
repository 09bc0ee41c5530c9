/** Which field a word in the middle of a sentence is meant for. */
import type { FieldSpec, RecordSpec } from '../../schema/generated/fields.js';
import type { Kind } from '../book.ts';
import { NOUN, listed, withArticle } from '../check/finding.ts';
import type { Form } from './forms.ts';
import type { Lexicon, Named } from './lexicon.ts';
import { causesOf, LOST_TO, OUTCOMES } from './outcome-words.ts';

interface Grounds {
  readonly form: Form;
  readonly spec: RecordSpec;
  readonly lexicon: Lexicon;
}

/** A field and what is to stand in it. */
export interface Meant {
  readonly field: string;
  readonly value: string;
}

/** The first of the fields that the word fits: an id by what it names, a word by the field's own. */
export function meantBy(
  { spec, lexicon }: Grounds,
  fields: readonly string[],
  word: string,
): Meant | undefined {
  const named = lexicon.find(word);
  for (const field of fields) {
    const { kinds, words } = takes(spec.fields[field]);
    if (words.includes(word)) return { field, value: word };
    if (named && kinds.includes(named.kind)) return { field, value: named.id };
  }
  return undefined;
}

/** Everything that may stand in the middle of a sentence: kinds of ids, and words. */
export function termsOf({ form, spec }: Grounds): {
  readonly kinds: readonly Kind[];
  readonly words: readonly string[];
} {
  const { middle = [], flags = [], tails = {}, outcome = false } = form.grammar;
  const terms = middle.map((field) => takes(spec.fields[field]));
  return {
    kinds: [...new Set(terms.flatMap(({ kinds }) => kinds))],
    words: [
      ...terms.flatMap(({ words }) => words),
      ...flags,
      ...Object.keys(tails),
      ...(outcome ? [...OUTCOMES, ...causesOf(spec), LOST_TO] : []),
    ],
  };
}

/** Says that a word names a record of a kind that does not go here. */
export function namedElsewhere(
  grounds: Grounds,
  { id, kind }: Named,
): { readonly message: string; readonly hint: string } {
  const { kinds } = termsOf(grounds);
  const nouns = kinds.map((each) => withArticle(NOUN[each]));
  return {
    message: `"${id}" is ${withArticle(NOUN[kind])}, which does not go here`,
    hint:
      nouns.length === 0
        ? `write ${grounds.form.shape}`
        : `write the id of ${listed(nouns, 'or')}: ${grounds.form.shape}`,
  };
}

interface Takes {
  readonly kinds: readonly Kind[];
  readonly words: readonly string[];
}

function takes(spec: FieldSpec | undefined): Takes {
  if (spec?.type === 'reference') return { kinds: spec.to, words: spec.words ?? [] };
  if (spec?.type === 'word') return { kinds: [], words: spec.words };
  return spec?.type === 'list' ? takes(spec.of) : { kinds: [], words: [] };
}
