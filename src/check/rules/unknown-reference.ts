/** What a record names must be on record itself. */
import type { Book } from '../../book.ts';
import { NOUN, keySpot, listed, spot } from '../finding.ts';
import { nearest } from '../nearest.ts';
import { unknownBags, unknownCategories } from '../named-texts.ts';
import { badReferences, type BadReference } from '../references.ts';
import type { Rule, RuleFinding, Unsound } from '../rule.ts';

export const unknownReference: Rule = {
  name: 'unknown-reference',
  severity: 'error',
  about: 'A record names a material, lot, firing or the like that is nowhere in the book.',
  find: (book, _day, unsound) => {
    const findMeant = rememberMeant(book);
    return [
      ...badReferences(book)
        .filter((reference) => isNowhere(reference, unsound))
        .map((reference) => unknown(reference, findMeant(reference))),
      ...unknownBags(book, unsound),
      ...unknownCategories(book, unsound),
    ];
  },
};

function isNowhere({ elsewhere, id, to }: BadReference, unsound: Unsound): boolean {
  if (elsewhere !== undefined || unsound.ids.has(id)) return false;
  return !to.some((kind) => unsound.kinds.has(kind));
}

function unknown(reference: BadReference, meant: string | undefined): RuleFinding {
  const { record, path, isKey, id, to, words } = reference;
  const nouns = listed(
    to.map((kind) => NOUN[kind]),
    'or',
  );
  const orWord = words.length === 0 ? '' : `, or one of ${listed(words)}`;
  return {
    at: isKey ? keySpot(record, ...path) : spot(record, ...path),
    message: `there is no ${nouns} "${id}"`,
    hint:
      meant === undefined
        ? `write the id of a ${nouns} that is on record${orWord}`
        : `did you mean "${meant}"?`,
  };
}

/** The nearest id, looked for once for each mistyped one however often it is used. */
function rememberMeant(book: Book): (reference: BadReference) => string | undefined {
  const known = new Map<string, string | undefined>();
  return ({ id, to, words }) => {
    const key = `${id} ${to.join(' ')}`;
    if (!known.has(key)) {
      const ids = to.flatMap((kind) => [...book[kind].keys()]);
      known.set(key, nearest(id, [...words, ...ids]));
    }
    return known.get(key);
  };
}
