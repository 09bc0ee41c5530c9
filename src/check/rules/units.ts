/** A quantity is in a unit that measures what it is of. */
import type { Book, ClayUse, Firing, Fuel, Lot, NamedBook, Recipe, Tariff } from '../../book.ts';
import { dimensionOf, UNITS, type Dimension, type Quantity, type Unit } from '../../number/unit.ts';
import { energyCost, energyOf, tariffOn } from '../../reckon/energy.ts';
import { clayOn } from '../across.ts';
import {
  eachStating,
  findEach,
  keySpot,
  listed,
  spot,
  withArticle,
  type Say,
  type Sited,
} from '../finding.ts';
import { each, over, type EachLook, type RuleLook, type Rule } from '../rule.ts';

interface Stock {
  readonly id: string;
  readonly unit: Unit;
}

interface Line {
  readonly material: string;
  readonly quantity: Quantity;
}

interface Measuring {
  readonly book: NamedBook;
  readonly record: Sited;
  readonly say: Say;
  /** Where what is looked at stands in the record; absent: in the record itself. */
  readonly path?: readonly (string | number)[];
}

/** A material, or a clay recipe, which is kept by weight. */
function stockOf(book: NamedBook, id: string | undefined): Stock | undefined {
  if (id === undefined) return undefined;
  return book.materials.get(id) ?? (book.recipes.has(id) ? { id, unit: 'g' } : undefined);
}

function clayOf(book: NamedBook, lot: Lot): Partial<ClayUse> {
  const { clay } = lot;
  const material = clay?.material ?? clayOn(book, lot)?.material;
  return { ...(material && { material }), ...(clay?.each && { each: clay.each }) };
}

/** Quantities in a unit that measures something else than the stock unit of their material. */
const badStockUnits: readonly EachLook[] = [
  each('materials', (material, { say }) => {
    const { reorderAt: quantity } = material;
    mustFitStock({ record: material, path: ['reorder-at'], quantity }, material, say);
  }),
  each('products', (product, { book, say }) => {
    eachStating(product, (stated, path) => {
      const look = { book, record: product, say, path };
      lookAtClay(look, stated.clay);
      const packing = stated.packing?.map(({ material, each: quantity }) => ({
        material,
        quantity,
      }));
      lookAtLines(look, ['packing', 'each'], packing);
    });
  }),
  each('classes', (taught, { book, say }) => {
    eachStating(taught, (stated, path) => {
      lookAtClay({ book, record: taught, say, path }, stated.clay);
    });
  }),
  each('pieces', (lot, { book, say }) => {
    if (lot.clay !== undefined) lookAtClay({ book, record: lot, say }, clayOf(book, lot));
  }),
  each('bought', (bought, { book, say }) => {
    lookAtLines({ book, record: bought, say }, ['lines', 'quantity'], bought.lines);
  }),
  each(['reclaimed', 'used'], (record, { book, say }) => {
    lookAtOne({ book, record, say }, ['quantity'], record);
  }),
  each('firings', (firing, { book, say }) => {
    const look = { book, record: firing, say };
    lookAtLines(look, ['supplies', 'quantity'], firing.supplies);
    const fuel = firing.fuelUsed;
    if (fuel && 'material' in fuel) lookAtOne(look, ['fuel-used', 'quantity'], fuel);
  }),
  each('counted', (counted, { book, say }) => {
    lookAtLines({ book, record: counted, say }, ['materials', 'quantity'], counted.materials);
  }),
];

function lookAtLines(
  look: Measuring,
  [list, key]: readonly [string, string],
  lines: readonly Line[] | undefined,
): void {
  lines?.forEach((line, index) => {
    lookAtOne(look, [list, index, key], line);
  });
}

function lookAtOne(
  { book, record, say, path: above = [] }: Measuring,
  path: readonly (string | number)[],
  { material, quantity }: Line,
): void {
  mustFitStock({ record, path: [...above, ...path], quantity }, stockOf(book, material), say);
}

function lookAtClay(look: Measuring, clay: Partial<ClayUse> | undefined): void {
  const { book, record, say, path = [] } = look;
  const measured = { record, path: [...path, 'clay', 'each'], quantity: clay?.each };
  mustFitStock(measured, stockOf(book, clay?.material), say);
}

/** What each fuel is sold by. */
const SOLD_BY: Readonly<Record<Fuel, readonly Dimension[]>> = {
  electricity: ['energy'],
  'natural-gas': ['energy', 'gas'],
  propane: ['volume', 'weight', 'energy', 'gas', 'count'],
  wood: ['volume', 'weight', 'count'],
};

/** Tariffs by a unit that their fuel is not sold by, and firings whose energy no tariff can price. */
const badFuelUnits: readonly RuleLook[] = [
  each('tariffs', lookAtTariff),
  over({ firings: 'all', tariffs: 'all' }, (book) =>
    findEach(book.firings, (firing, say) => {
      lookAtPricing(book, firing, say);
    }),
  ),
];

function lookAtTariff(tariff: Tariff, { say }: { readonly say: Say }): void {
  const { fuel, per } = tariff;
  const given = dimensionOf(per);
  if (SOLD_BY[fuel].includes(given)) return;
  say({
    at: spot(tariff, 'per'),
    message: `${per} is ${called(given)}, but ${fuel} is sold by ${listed(SOLD_BY[fuel], 'or')}`,
    hint: `price it per ${unitsOf(SOLD_BY[fuel])}`,
  });
}

function lookAtPricing(book: NamedBook & Pick<Book, 'tariffs'>, firing: Firing, say: Say): void {
  const kiln = book.kilns.get(firing.kiln);
  if (kiln === undefined || isFromStock(firing)) return;
  const use = energyOf(firing, kiln);
  const tariff = tariffOn(book, kiln.fuel, firing.date);
  if (use === undefined || tariff === undefined) return;
  if (!SOLD_BY[kiln.fuel].includes(dimensionOf(tariff.per))) return;
  if (dimensionOf(use.unit) === dimensionOf(tariff.per)) return;
  if (energyCost(book, firing, use) !== undefined) return;
  say({
    at: spot(firing, ...placeOfEnergy(firing)),
    message: `${use.value.toFixed()} ${use.unit} can't be priced by ${tariff.id}, which is per ${tariff.per}`,
    hint: `write it in ${unitsOf([dimensionOf(tariff.per)])}, or give ${kiln.id} its heat-content if gas is measured`,
    related: [{ at: spot(tariff, 'per'), message: `the unit of ${tariff.id}` }],
  });
}

// Fuel from stock is priced by what it cost.
function isFromStock({ fuelUsed }: Firing): boolean {
  return fuelUsed !== undefined && 'material' in fuelUsed;
}

function placeOfEnergy({ energy, meter, fuelUsed }: Firing): readonly string[] {
  if (energy !== undefined) return ['energy'];
  if (meter !== undefined) return ['meter'];
  return fuelUsed === undefined ? ['hours'] : ['fuel-used'];
}

/** A quantity in a record, and what it must measure. */
interface Measured {
  readonly record: Sited;
  readonly path: readonly (string | number)[];
  readonly quantity: Quantity | undefined;
}

/** Says so when a quantity of a material or clay is not in a unit like the one it is kept in. */
function mustFitStock(
  { record, path, quantity }: Measured,
  stock: { readonly id: string; readonly unit: Unit } | undefined,
  say: Say,
): void {
  if (quantity === undefined || stock === undefined) return;
  const wanted = dimensionOf(stock.unit);
  const given = dimensionOf(quantity.unit);
  if (given === wanted) return;
  say({
    at: spot(record, ...path),
    message: `${quantity.text} is ${called(given)}, but ${stock.id} is ${keptIn(stock.unit)}`,
    hint: wanted === 'count' ? 'write how many' : `write it in ${unitsOf([wanted])}`,
  });
}

/** A dimension in a sentence: `a weight`, `an energy`. */
function called(dimension: Dimension): string {
  return dimension === 'gas' ? 'a volume of gas' : withArticle(dimension);
}

/** The units of some dimensions: `g, kg, t, oz, lb or ton`. */
function unitsOf(dimensions: readonly Dimension[]): string {
  const units = Object.entries(UNITS)
    .filter(([, { dimension }]) => dimensions.includes(dimension))
    .map(([unit]) => unit);
  return listed(units, 'or');
}

/** How something is kept that has this stock unit: `kept in kg, a weight`, `counted`. */
function keptIn(unit: Unit): string {
  return unit === 'each' ? 'counted' : `kept in ${unit}, ${called(dimensionOf(unit))}`;
}

/** Recipe lines whose material is not kept by weight, so that no mix can draw it from stock. */
const unweighable = each('recipes', (recipe, { book, say }) => {
  recipe.versions.forEach(({ base, additions }, index) => {
    const at = ['versions', index];
    lookAtParts({ book, recipe, say }, [...at, 'base'], base);
    lookAtParts({ book, recipe, say }, [...at, 'additions'], additions ?? []);
  });
});

interface RecipeLook {
  readonly book: NamedBook;
  readonly recipe: Recipe;
  readonly say: Say;
}

function lookAtParts(
  { book, recipe, say }: RecipeLook,
  path: readonly (string | number)[],
  lines: readonly { readonly material: string }[],
): void {
  lines.forEach(({ material: id }, index) => {
    const material = book.materials.get(id);
    if (material === undefined || dimensionOf(material.unit) === 'weight') return;
    say({
      at: spot(recipe, ...path, index, 'material'),
      message: `${recipe.id} is mixed by weight, but ${id} is ${keptIn(material.unit)}`,
      hint: `give ${id} a stock unit of weight, or take it out of the recipe`,
      related: [{ at: keySpot(material, 'unit'), message: `the unit of ${id}` }],
    });
  });
}

const badUnit: Rule = {
  name: 'bad-unit',
  severity: 'error',
  about: 'A quantity is in a unit that measures something else than what is wanted there.',
  looks: [...badStockUnits, unweighable, ...badFuelUnits],
};

/** The rules on units. */
export const UNIT_RULES: readonly Rule[] = [badUnit];
