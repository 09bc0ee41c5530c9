/** An id that is on record, but not as what is wanted there. */
import { KINDS, type Channel, type Fair } from '../../book.ts';
import { NOUN, keySpot, listed, spot, withArticle, type Say, type Sited } from '../finding.ts';
import { badReferences, type BadReference } from '../references.ts';
import { each, type EachScene, type Rule } from '../rule.ts';

export const wrongKindOfReference: Rule = {
  name: 'wrong-kind-of-reference',
  severity: 'error',
  about:
    'A record names something of another kind than is wanted, as a recipe where a material goes, leaves goods with a channel that is no consignment, or holds a fair at one that is no fair.',
  looks: [
    each(KINDS, (record, scene, kind) => {
      for (const reference of badReferences(kind, record, scene)) sayWrongKind(reference, scene);
    }),
    // Goods left with any other channel would never be sold from there, for its sales draw on the studio.
    each('consigned', (consigned, { book, say }) => {
      const look = { record: consigned, path: ['channel'], say };
      lookAtPlace(book.channels.get(consigned.channel), look);
    }),
    each('counted', (counted, { book, say }) => {
      counted.pieces?.forEach(({ place }, index) => {
        if (place === undefined) return;
        const path = ['pieces', index, 'place'];
        lookAtPlace(book.channels.get(place), { record: counted, path, say });
      });
    }),
    each('fairs', lookAtFair),
  ],
};

function sayWrongKind(reference: BadReference, { book, say }: EachScene): void {
  const { record, path, isKey, id, to, elsewhere } = reference;
  const other = elsewhere === undefined ? undefined : book[elsewhere].get(id);
  if (elsewhere === undefined || other === undefined) return;
  const wanted = listed(
    to.map((kind) => withArticle(NOUN[kind])),
    'or',
  );
  say({
    at: isKey ? keySpot(record, ...path) : spot(record, ...path),
    message: `"${id}" is ${withArticle(NOUN[elsewhere])}, where ${wanted} is wanted`,
    hint: `write the id of ${wanted}`,
    related: [{ at: keySpot(other), message: `the ${NOUN[elsewhere]} of that id` }],
  });
}

// The report on fairs would never find what was sold there.
function lookAtFair(fair: Fair, { book, say }: EachScene): void {
  const channel = book.channels.get(fair.channel);
  if (channel === undefined || channel.kind === 'fair') return;
  say({
    at: spot(fair, 'channel'),
    message: `a fair wants a channel of kind fair, but ${channel.id} is of kind ${channel.kind}`,
    hint: `name a channel of kind fair, or make ${channel.id} one`,
    related: [{ at: spot(channel, 'kind'), message: `the kind of ${channel.id}` }],
  });
}

interface Look {
  readonly record: Sited;
  readonly path: readonly (string | number)[];
  readonly say: Say;
}

function lookAtPlace(channel: Channel | undefined, { record, path, say }: Look): void {
  if (channel === undefined || channel.kind === 'consignment') return;
  say({
    at: spot(record, ...path),
    message: `goods stand in the studio or on consignment, but ${channel.id} is of kind ${channel.kind}`,
    hint: `name a channel of kind consignment, or make ${channel.id} one`,
    related: [{ at: spot(channel, 'kind'), message: `the kind of ${channel.id}` }],
  });
}
