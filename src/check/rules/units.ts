/** A quantity is in a unit that measures what it is of. */
import type { Book, Firing, Fuel, NamedBook, Tariff } from '../../book.ts';
import { dimensionOf, UNITS, type Dimension, type Quantity, type Unit } from '../../number/unit.ts';
import { energyCost, energyOf, tariffOn } from '../../reckon/kilns/energy.ts';
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
import { each, over, type EachLook, type EachScene, type Rule, type RuleLook } from '../rule.ts';

interface Line {
  readonly material: string | undefined;
  readonly quantity: Quantity | undefined;
}

/** Takes a quantity of a material, and where in a record it stands. */
type Measures = (line: Line, ...path: readonly (string | number)[]) => void;

/** Says so when a quantity of a material or clay is not in a unit like the one it is kept in. */
function measuring(record: Sited, { book, say }: EachScene): Measures {
  return ({ material, quantity }, ...path) => {
    if (quantity === undefined || material === undefined) return;
    const unit = stockUnit(book, material);
    if (unit === undefined) return;
    const wanted = dimensionOf(unit);
    const given = dimensionOf(quantity.unit);
    if (given === wanted) return;
    say({
      at: spot(record, ...path),
      message: `${quantity.text} is ${called(given)}, but ${material} is ${keptIn(unit)}`,
      hint: inStockUnit(quantity, unit),
    });
  };
}

/** The same number as a quantity of the right sort, for most slips are in the unit. */
function inStockUnit({ text }: Quantity, unit: Unit): string {
  const [number = ''] = /^[\d.]+(?: x [\d.]+)?/.exec(text) ?? [];
  if (unit === 'each') return `write how many there are, such as ${number}`;
  const units = unitsOf([dimensionOf(unit)]);
  return `write it in ${units}, such as ${number} ${unit}`;
}

/** Of a material, or of a clay recipe, which is kept by weight. */
function stockUnit(book: NamedBook, id: string): Unit | undefined {
  return book.materials.get(id)?.unit ?? (book.recipes.has(id) ? 'g' : undefined);
}

/** Quantities in a unit that measures something else than the stock unit of their material. */
const badStockUnits: readonly EachLook[] = [
  each('materials', (material, scene) => {
    const { id, reorderAt: quantity } = material;
    measuring(material, scene)({ material: id, quantity }, 'reorder-at');
  }),
  each('products', (product, scene) => {
    const measures = measuring(product, scene);
    eachStating(product, ({ clay, packing = [] }, path) => {
      measures({ material: clay?.material, quantity: clay?.each }, ...path, 'clay', 'each');
      packing.forEach(({ material, each: quantity }, index) => {
        measures({ material, quantity }, ...path, 'packing', index, 'each');
      });
    });
  }),
  each('classes', (taught, scene) => {
    const measures = measuring(taught, scene);
    eachStating(taught, ({ clay }, path) => {
      measures({ material: clay?.material, quantity: clay?.each }, ...path, 'clay', 'each');
    });
  }),
  each('pieces', (lot, scene) => {
    if (lot.clay === undefined) return;
    const material = lot.clay.material ?? clayOn(scene.book, lot)?.material;
    measuring(lot, scene)({ material, quantity: lot.clay.each }, 'clay', 'each');
  }),
  each('bought', (bought, scene) => {
    inList(measuring(bought, scene), 'lines', bought.lines);
  }),
  each(['reclaimed', 'used'], (record, scene) => {
    measuring(record, scene)(record, 'quantity');
  }),
  each('firings', (firing, scene) => {
    const measures = measuring(firing, scene);
    inList(measures, 'supplies', firing.supplies);
    const fuel = firing.fuelUsed;
    if (fuel && 'material' in fuel) measures(fuel, 'fuel-used', 'quantity');
  }),
  each('counted', (counted, scene) => {
    inList(measuring(counted, scene), 'materials', counted.materials);
  }),
];

function inList(measures: Measures, list: string, lines: readonly Line[] = []): void {
  lines.forEach((line, index) => {
    measures(line, list, index, 'quantity');
  });
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
  // Fuel from stock is priced by what it cost.
  const fromStock = firing.fuelUsed !== undefined && 'material' in firing.fuelUsed;
  if (kiln === undefined || fromStock) return;
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

function placeOfEnergy({ energy, meter, fuelUsed }: Firing): readonly string[] {
  if (energy !== undefined) return ['energy'];
  if (meter !== undefined) return ['meter'];
  return fuelUsed === undefined ? ['hours'] : ['fuel-used'];
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
  const look = (material: string, ...path: readonly (string | number)[]): void => {
    const kept = book.materials.get(material);
    if (kept === undefined || dimensionOf(kept.unit) === 'weight') return;
    say({
      at: spot(recipe, 'versions', ...path, 'material'),
      message: `${recipe.id} is mixed by weight, but ${material} is ${keptIn(kept.unit)}`,
      hint: `give ${material} a stock unit of weight, or take it out of the recipe`,
      related: [{ at: keySpot(kept, 'unit'), message: `the unit of ${material}` }],
    });
  };
  recipe.versions.forEach((version, at) => {
    for (const list of ['base', 'additions'] as const)
      version[list]?.forEach(({ material }, index) => {
        look(material, at, list, index);
      });
  });
});

const badUnit: Rule = {
  name: 'bad-unit',
  severity: 'error',
  about: 'A quantity is in a unit that measures something else than what is wanted there.',
  looks: [...badStockUnits, unweighable, ...badFuelUnits],
};

/** The rules on units. */
export const UNIT_RULES: readonly Rule[] = [badUnit];
