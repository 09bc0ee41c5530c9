/** Texts that name something without being an id: numbers on bags, and spending categories. */
import { FIELDS } from '../../schema/generated/fields.js';
import type { Spent } from '../book.ts';
import { bagsOf, namedBags, type Bags, type NamedBag, type WITH_BAGS } from './across.ts';
import { listed, type RuleFinding, spot } from './finding.ts';
import { nearest } from './nearest.ts';
import type { EachScene, ReachedBook, Unsound } from './rule.ts';

/** Bags that no purchase or mix of that material has, neither by its id nor by the number. */
export function unknownBags(
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
      hint:
        meant === undefined
          ? `write the id of a purchase of ${material}, or a bag's number as the purchase has it`
          : `did you mean "${meant}"?`,
    },
  ];
}

/** A spending category that neither the program nor the studio knows. */
export function lookAtCategory(spent: Spent, scene: EachScene): void {
  const own = scene.book.studio.categories ?? {};
  const builtIn = builtInCategories();
  if (builtIn.includes(spent.for) || Object.hasOwn(own, spent.for)) return;
  if (scene.unsound.kinds.has('studio')) return;
  const known = [...builtIn, ...Object.keys(own)];
  const meant = nearest(spent.for, known);
  scene.say({
    at: spot(spent, 'for'),
    message: `there is no spending category "${spent.for}"`,
    hint:
      meant === undefined
        ? `use one of ${listed(known, 'or')}; or add yours to categories in studio.yaml`
        : `did you mean "${meant}"?`,
  });
}

function builtInCategories(): readonly string[] {
  const spec = FIELDS.spent.fields['for'];
  return spec !== undefined && 'words' in spec ? (spec.words ?? []) : [];
}
