/** What a record names is on record, and as what is wanted there. */
import { FIELDS, type FieldSpec } from '../../../schema/generated/fields.js';
import {
  KINDS,
  type Channel,
  type Fair,
  type Kind,
  type NamedBook,
  type Spent,
} from '../../book.ts';
import { bagsOf, namedBags, WITH_BAGS, type Bags, type NamedBag } from '../across.ts';
import {
  keySpot,
  listed,
  NOUN,
  spot,
  withArticle,
  type RuleFinding,
  type Sited,
} from '../finding.ts';
import { didYouMean, nearest } from '../../nearest.ts';
import type { Mistyped } from '../../problem.ts';
import {
  each,
  over,
  type EachScene,
  type Meant,
  type ReachedBook,
  type Rule,
  type Unsound,
} from '../rule.ts';
import { faultFinder } from '../walk.ts';

/** An id where no record of a wanted kind has it. */
interface BadReference extends Mistyped {
  readonly record: Sited;
  readonly path: readonly (string | number)[];
  readonly isKey: boolean;
  /** The kind that does have a record of that id. */
  readonly elsewhere: Kind | undefined;
}

const findFaults = faultFinder({
  wants: (spec) => kindsNamed(spec) !== undefined,
  tester: (spec) => {
    const words = wordsInPlace(spec);
    const [first, ...others] = kindsNamed(spec) ?? [];
    return (value, book) => {
      const id = value as string;
      if (first !== undefined && book[first].has(id)) return true;
      return others.some((kind) => book[kind].has(id)) || words.includes(id);
    };
  },
});

/** The kinds that a field or a map's keys may name. */
function kindsNamed(spec: FieldSpec): readonly Kind[] | undefined {
  if (spec.type === 'reference') return spec.to;
  return spec.type === 'map' ? spec.keysTo : undefined;
}

function wordsInPlace(spec: FieldSpec): readonly string[] {
  if (spec.type === 'map') return spec.keys ?? [];
  return 'words' in spec ? (spec.words ?? []) : [];
}

/** All references of a record that miss what they aim at. */
function missedBy(kind: Kind, record: Sited, book: NamedBook): readonly BadReference[] {
  return findFaults(kind, record, book).map(({ path, value, spec, isKey }) => {
    const id = String(value);
    const elsewhere = KINDS.find((each) => book[each].has(id));
    return {
      record,
      path,
      isKey,
      id,
      to: kindsNamed(spec) ?? [],
      words: wordsInPlace(spec),
      elsewhere,
    };
  });
}

/** The record that was looked at last, for the next rule that asks about its references. */
const lastLooked = new WeakMap<EachScene, { record: Sited; found: readonly BadReference[] }>();

/** The same, worked out once for all rules that look at the record in one pass. */
function badReferences(kind: Kind, record: Sited, scene: EachScene): readonly BadReference[] {
  const known = lastLooked.get(scene);
  if (known?.record === record) return known.found;
  const found = missedBy(kind, record, scene.book);
  if (known) Object.assign(known, { record, found });
  else lastLooked.set(scene, { record, found });
  return found;
}

const unknownReference: Rule = {
  name: 'unknown-reference',
  severity: 'error',
  about: 'A record names a material, lot, firing or the like that is nowhere in the book.',
  unsettles: true,
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

function unknown(reference: BadReference, { near, one }: Meant): RuleFinding {
  const { record, path, isKey, id, to, words } = reference;
  const nouns = listed(
    to.map((kind) => NOUN[kind]),
    'or',
  );
  const orWord = words.length === 0 ? '' : `, or one of ${listed(words)}`;
  return {
    at: isKey ? keySpot(record, ...path) : spot(record, ...path),
    message: `there is no ${nouns} "${id}"`,
    hint: didYouMean(near, `write the id of a ${nouns} that is on record${suchAs(one)}${orWord}`),
    ...(near !== undefined && { concerns: [near] }),
  };
}

function suchAs(id: string | undefined): string {
  return id === undefined ? '' : `, such as ${id}`;
}

/** Bags that no purchase or mix of that material has, neither by its id nor by the number. */
function unknownBags(
  book: ReachedBook<typeof WITH_BAGS>,
  unsound: Unsound,
): readonly RuleFinding[] {
  const isPossible = (bag: string): boolean =>
    unsound.kinds.has('bought') || unsound.ids.has(bag) || unsound.texts.has(bag);
  const named = namedBags(book).filter(
    ({ bag, material }) =>
      !isPossible(bag) && (book.materials.has(material) || book.recipes.has(material)),
  );
  if (named.length === 0) return [];
  const bags = bagsOf(book);
  return named.flatMap((each) => unknownBag(each, bags.get(each.material)));
}

function unknownBag(
  { record, path, material, bag }: NamedBag,
  bags: Bags | undefined,
): readonly RuleFinding[] {
  if (bags?.has(bag)) return [];
  const meant = nearest(bag, bags?.keys() ?? []);
  return [
    {
      at: spot(record, ...path),
      message: `there is no bag "${bag}" of ${material}`,
      hint: didYouMean(
        meant,
        `write the id of a purchase of ${material}, or a bag's number as the purchase has it`,
      ),
    },
  ];
}

/** A spending category that neither the program nor the studio knows. */
function lookAtCategory(spent: Spent, scene: EachScene): void {
  const own = scene.book.studio.categories ?? {};
  const builtIn = builtInCategories();
  if (builtIn.includes(spent.for) || Object.hasOwn(own, spent.for)) return;
  if (scene.unsound.kinds.has('studio')) return;
  const known = [...builtIn, ...Object.keys(own)];
  const meant = nearest(spent.for, known);
  scene.say({
    at: spot(spent, 'for'),
    message: `there is no spending category "${spent.for}"`,
    hint: didYouMean(
      meant,
      `write one of ${known.join(', ')}; or add yours to categories in studio.yaml`,
    ),
  });
}

function builtInCategories(): readonly string[] {
  const spec = FIELDS.spent.fields['for'];
  return spec !== undefined && 'words' in spec ? (spec.words ?? []) : [];
}

const wrongKindOfReference: Rule = {
  name: 'wrong-kind-of-reference',
  severity: 'error',
  about:
    'A record names something of another kind than is wanted, as a recipe where a material goes, leaves goods with a channel that is not a consignment, or holds a fair at one that is not a fair.',
  unsettles: true,
  looks: [
    each(KINDS, (record, scene, kind) => {
      for (const reference of badReferences(kind, record, scene)) sayWrongKind(reference, scene);
    }),
    // Goods left with any other channel would never be sold from there, for its sales draw on the studio.
    each('consigned', (consigned, scene) => {
      const look = { record: consigned, path: ['channel'], scene };
      lookAtPlace(scene.book.channels.get(consigned.channel), look);
    }),
    each('counted', (counted, scene) => {
      counted.pieces?.forEach(({ place }, index) => {
        if (place === undefined) return;
        const path = ['pieces', index, 'place'];
        lookAtPlace(scene.book.channels.get(place), { record: counted, path, scene });
      });
    }),
    each('fairs', lookAtChannelOfFair),
  ],
};

function sayWrongKind(reference: BadReference, scene: EachScene): void {
  const { book, say } = scene;
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
    hint: `write the id of ${wanted}${suchAs(scene.meant(reference).one)}`,
    related: [{ at: keySpot(other), message: `the ${NOUN[elsewhere]} of that id` }],
  });
}

// The report on fairs would never find what was sold there.
function lookAtChannelOfFair(fair: Fair, { book, say, meant }: EachScene): void {
  const channel = book.channels.get(fair.channel);
  if (channel === undefined || channel.kind === 'fair') return;
  say({
    at: spot(fair, 'channel'),
    message: `a fair needs a channel of kind fair, but ${channel.id} is of kind ${channel.kind}`,
    hint: `name a channel of kind fair${suchAs(meant(ofKind(channel, 'fair')).one)}; or give ${channel.id} the kind fair`,
    related: [{ at: spot(channel, 'kind'), message: `the kind of ${channel.id}` }],
  });
}

interface NamingPlace {
  readonly record: Sited;
  readonly path: readonly (string | number)[];
  readonly scene: EachScene;
}

function ofKind({ id }: Channel, channel: Channel['kind']): Mistyped {
  return { id, to: ['channels'], words: [], channel };
}

function lookAtPlace(channel: Channel | undefined, { record, path, scene }: NamingPlace): void {
  if (channel === undefined || channel.kind === 'consignment') return;
  const { one } = scene.meant(ofKind(channel, 'consignment'));
  scene.say({
    at: spot(record, ...path),
    message: `goods are in the studio or on consignment, but ${channel.id} is of kind ${channel.kind}`,
    hint: `name a channel of kind consignment${suchAs(one)}; or give ${channel.id} the kind consignment`,
    related: [{ at: spot(channel, 'kind'), message: `the kind of ${channel.id}` }],
  });
}

/** The rules on references. */
export const REFERENCE_RULES: readonly Rule[] = [unknownReference, wrongKindOfReference];
