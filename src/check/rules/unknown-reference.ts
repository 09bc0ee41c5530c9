/** What a record names must be on record itself. */
import { KINDS } from '../../book.ts';
import { WITH_BAGS } from '../across.ts';
import { keySpot, listed, NOUN, type RuleFinding, spot } from '../finding.ts';
import { lookAtCategory, unknownBags } from '../named-texts.ts';
import { badReferences, type BadReference } from '../references.ts';
import { each, over, type Rule, type Unsound } from '../rule.ts';

export const unknownReference: Rule = {
  name: 'unknown-reference',
  severity: 'error',
  about: 'A record names a material, lot, firing or the like that is nowhere in the book.',
  looks: [
    each(KINDS, (record, scene, kind) => {
      for (const reference of badReferences(kind, record, scene))
        if (isNowhere(reference, scene.unsound))
          scene.say(unknown(reference, scene.meant(reference)));
    }),
    over(WITH_BAGS, unknownBags),
    each('spent', lookAtCategory),
  ],
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
