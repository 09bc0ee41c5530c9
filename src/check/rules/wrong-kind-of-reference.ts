/** An id that is on record, but not as what is wanted there. */
import type { Book, Channel } from '../../book.ts';
import {
  NOUN,
  findEach,
  keySpot,
  listed,
  spot,
  withArticle,
  type Say,
  type Sited,
} from '../finding.ts';
import { badReferences, type BadReference } from '../references.ts';
import type { Rule, RuleFinding } from '../rule.ts';

export const wrongKindOfReference: Rule = {
  name: 'wrong-kind-of-reference',
  severity: 'error',
  about:
    'A record names something of another kind than is wanted, as a recipe where a material goes, leaves goods with a channel that is no consignment, or holds a fair at one that is no fair.',
  find: (book) => [
    ...badReferences(book).flatMap((reference) => wrongKind(book, reference)),
    ...notAGallery(book),
    ...notAFair(book),
  ],
};

function wrongKind(book: Book, reference: BadReference): readonly RuleFinding[] {
  const { record, path, isKey, id, to, elsewhere } = reference;
  const other = elsewhere === undefined ? undefined : book[elsewhere].get(id);
  if (elsewhere === undefined || other === undefined) return [];
  const wanted = listed(
    to.map((kind) => withArticle(NOUN[kind])),
    'or',
  );
  return [
    {
      at: isKey ? keySpot(record, ...path) : spot(record, ...path),
      message: `"${id}" is ${withArticle(NOUN[elsewhere])}, where ${wanted} is wanted`,
      hint: `write the id of ${wanted}`,
      related: [{ at: keySpot(other), message: `the ${NOUN[elsewhere]} of that id` }],
    },
  ];
}

// Goods left with any other channel would never be sold from there, for its sales draw on the studio.
function notAGallery(book: Book): readonly RuleFinding[] {
  return [
    ...findEach(book.consigned, (consigned, say) => {
      lookAtPlace(book.channels.get(consigned.channel), {
        record: consigned,
        path: ['channel'],
        say,
      });
    }),
    ...findEach(book.counted, (counted, say) => {
      counted.pieces?.forEach(({ place = '' }, index) => {
        const path = ['pieces', index, 'place'];
        lookAtPlace(book.channels.get(place), { record: counted, path, say });
      });
    }),
  ];
}

// The report on fairs would never find what was sold there.
function notAFair(book: Book): readonly RuleFinding[] {
  return findEach(book.fairs, (fair, say) => {
    const channel = book.channels.get(fair.channel);
    if (channel === undefined || channel.kind === 'fair') return;
    say({
      at: spot(fair, 'channel'),
      message: `a fair wants a channel of kind fair, but ${channel.id} is of kind ${channel.kind}`,
      hint: `name a channel of kind fair, or make ${channel.id} one`,
      related: [{ at: spot(channel, 'kind'), message: `the kind of ${channel.id}` }],
    });
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
