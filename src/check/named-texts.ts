/** Texts that name something without being an id: numbers on bags, and spending categories. */
import { FIELDS } from '../../schema/generated/fields.js';
import type { Book, Lot, Mixed } from '../book.ts';
import { bagsOf, clayOn } from './across.ts';
import { findEach, listed, spot, type Say, type Sited } from './finding.ts';
import { nearest } from './nearest.ts';
import type { RuleFinding, Unsound } from './rule.ts';

/** Bags that no purchase or mix of that material has, neither by its id nor by the number. */
export function unknownBags(book: Book, unsound: Unsound): readonly RuleFinding[] {
  const isPossible = (bag: string): boolean =>
    unsound.kinds.has('bought') || unsound.ids.has(bag) || unsound.texts.has(bag);
  return [
    ...findEach(book.mixed, (mix, say) => {
      for (const named of bagsOfMix(mix)) if (!isPossible(named.bag)) lookAtBag(book, named, say);
    }),
    ...findEach(book.pieces, (lot, say) => {
      const named = bagOfLot(book, lot);
      if (named !== undefined && !isPossible(named.bag)) lookAtBag(book, named, say);
    }),
  ];
}

interface NamedBag {
  readonly record: Sited;
  readonly path: readonly string[];
  readonly material: string;
  readonly bag: string;
}

function bagsOfMix(mix: Mixed): readonly NamedBag[] {
  return Object.entries(mix.lots ?? {}).map(([material, bag]) => ({
    record: mix,
    path: ['lots', material],
    material,
    bag,
  }));
}

function bagOfLot(book: Book, lot: Lot): NamedBag | undefined {
  const bag = lot.clay?.lot;
  const material = lot.clay?.material ?? clayOn(book, lot)?.material;
  if (bag === undefined || material === undefined) return undefined;
  return { record: lot, path: ['clay', 'lot'], material, bag };
}

function lookAtBag(book: Book, { record, path, material, bag }: NamedBag, say: Say): void {
  if (!book.materials.has(material) && !book.recipes.has(material)) return;
  const bags = bagsOf(book).get(material);
  if (bags?.has(bag)) return;
  const meant = nearest(bag, bags?.keys() ?? []);
  say({
    at: spot(record, ...path),
    message: `there is no bag "${bag}" of ${material}`,
    hint:
      meant === undefined
        ? `write the id of a purchase of ${material}, or a bag's number as the purchase has it`
        : `did you mean "${meant}"?`,
  });
}

/** Spending categories that neither the program nor the studio knows. */
export function unknownCategories(book: Book, unsound: Unsound): readonly RuleFinding[] {
  if (unsound.kinds.has('studio')) return [];
  const known = [...builtInCategories(), ...Object.keys(book.studio.categories ?? {})];
  const categories = new Set(known);
  return findEach(book.spent, (spent, say) => {
    if (categories.has(spent.for)) return;
    const meant = nearest(spent.for, known);
    say({
      at: spot(spent, 'for'),
      message: `there is no spending category "${spent.for}"`,
      hint:
        meant === undefined
          ? `use one of ${listed(known, 'or')}; or add yours to categories in studio.yaml`
          : `did you mean "${meant}"?`,
    });
  });
}

function builtInCategories(): readonly string[] {
  const spec = FIELDS.spent.fields['for'];
  return spec !== undefined && 'words' in spec ? (spec.words ?? []) : [];
}
