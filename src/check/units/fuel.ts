/** Energy and fuel against the tariffs that price them. */
import type { Book, Firing, Fuel, NamedBook, Recipe, Tariff } from '../../book.ts';
import { dimensionOf, UNITS, type Dimension, type Quantity, type Unit } from '../../number/unit.ts';
import { energyCost, energyOf, tariffOn } from '../../reckon/energy.ts';
import { findEach, keySpot, listed, spot, withArticle, type Say, type Sited } from '../finding.ts';
import { each, over, type Look, type Rule } from '../rule.ts';
import { badStockUnits } from './stock.ts';

/** What each fuel is sold by. */
const SOLD_BY: Readonly<Record<Fuel, readonly Dimension[]>> = {
  electricity: ['energy'],
  'natural-gas': ['energy', 'gas'],
  propane: ['volume', 'weight', 'energy', 'gas', 'count'],
  wood: ['volume', 'weight', 'count'],
};

/** Tariffs by a unit that their fuel is not sold by, and firings whose energy no tariff can price. */
export const badFuelUnits: readonly Look[] = [
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
export interface Measured {
  readonly record: Sited;
  readonly path: readonly (string | number)[];
  readonly quantity: Quantity | undefined;
}

/** Says so when a quantity of a material or clay is not in a unit like the one it is kept in. */
export function mustFitStock(
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
export function called(dimension: Dimension): string {
  return dimension === 'gas' ? 'a volume of gas' : withArticle(dimension);
}

/** The units of some dimensions: `g, kg, t, oz, lb or ton`. */
export function unitsOf(dimensions: readonly Dimension[]): string {
  const units = Object.entries(UNITS)
    .filter(([, { dimension }]) => dimensions.includes(dimension))
    .map(([unit]) => unit);
  return listed(units, 'or');
}

/** How something is kept that has this stock unit: `kept in kg, a weight`, `counted`. */
export function keptIn(unit: Unit): string {
  return unit === 'each' ? 'counted' : `kept in ${unit}, ${called(dimensionOf(unit))}`;
}

/** Recipe lines whose material is not kept by weight, so that no mix can draw it from stock. */
export const unweighable = each('recipes', (recipe, { book, say }) => {
  recipe.versions.forEach(({ base, additions }, index) => {
    const at = ['versions', index];
    lookAtLines({ book, recipe, say }, [...at, 'base'], base);
    lookAtLines({ book, recipe, say }, [...at, 'additions'], additions ?? []);
  });
});

interface RecipeLook {
  readonly book: NamedBook;
  readonly recipe: Recipe;
  readonly say: Say;
}

function lookAtLines(
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

export const badUnit: Rule = {
  name: 'bad-unit',
  severity: 'error',
  about: 'A quantity is in a unit that measures something else than what is wanted there.',
  looks: [...badStockUnits, unweighable, ...badFuelUnits],
};
