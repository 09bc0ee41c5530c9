/** The grown studio's bookkeeping: what was used, spent, tested and counted. */
import { CLASSES, RECIPES } from './grow-definitions.js';
import { change, money, quantity } from './grow-state.js';

/** @import { Growth } from './grow-state.js' */

/** @type {readonly (readonly [material: string, unit: string, most: number, reason: string | undefined])[]} */
const USES = [
  ['stoneware', 'kg', 9, 'class'],
  ['stoneware', 'kg', 2, 'waste'],
  ['porcelain', 'kg', 1.5, 'test'],
  ['quartz', 'kg', 0.4, 'waste'],
  ['kaolin', 'kg', 0.5, 'test'],
  ['shelf-wash', 'kg', 0.3, 'studio'],
  ['brush-on-clear', 'gal', 0.12, undefined],
  ['tissue', 'each', 30, 'studio'],
  ['boxes', 'each', 4, 'gift'],
];

/**
 * Material that goes another way than into ware.
 * @param {Growth} growth
 */
export function useUp(growth) {
  const { random, stock, day } = growth;
  const [material, unit, most, reason] = random.pick(USES);
  const steps = unit === 'each' ? random.int(1, most) : Math.ceil(random.next() * most * 100) / 100;
  if ((stock.get(material) ?? 0) < steps + 1) return;
  change(stock, material, -steps);
  growth.write('used', growth.newId('u'), {
    date: day.date,
    material,
    quantity: quantity(steps, unit),
    for: reason === 'class' ? random.pick(CLASSES) : reason,
  });
}

/** @type {readonly (readonly [category: string, to: string, low: number, high: number])[]} */
const SPENDINGS = [
  ['utilities', 'Town Power', 40, 190],
  ['booth', 'Market Square Fairs', 45, 260],
  ['car', 'Valley Garage', 20, 240],
  ['office', 'Paper Corner', 4, 45],
  ['tools', 'Hill Clay Merchants', 8, 120],
  ['advertising', 'Valley Print', 15, 160],
  ['insurance', 'Craft Mutual', 60, 95],
  ['freight-out', 'Parcel Post', 7, 38],
  ['bank', 'Valley Bank', 3, 12],
  ['education', 'Evening School', 30, 220],
];

/**
 * Money spent on something else than materials.
 * @param {Growth} growth
 */
export function spend(growth) {
  const { random, day } = growth;
  const [category, to, low, high] = random.pick(SPENDINGS);
  growth.write('spent', growth.newId('x'), {
    date: day.date,
    to,
    for: category,
    amount: money(random.int(low * 100, high * 100)),
    distance: category === 'car' && random.chance(0.5) ? `${random.int(8, 160)} km` : undefined,
  });
}

/**
 * A test of ware that has come out of the kiln.
 * @param {Growth} growth
 */
export function test(growth) {
  const { random, finished, day } = growth;
  const lot = finished.length > 0 ? random.pick(finished) : undefined;
  const kind = random.pick(['tile', 'oven', 'dishwasher', 'crazing', 'leach']);
  if (kind === 'leach') {
    leach(growth, random.pick(RECIPES).id);
    return;
  }
  growth.write('tests', growth.newId('t'), {
    date: day.date,
    kind,
    recipe: random.pick(RECIPES).id,
    lot,
    result: random.pick(['no change', 'good', 'to be repeated']),
  });
}

/**
 * A laboratory's leach test of one glaze on one lot.
 * @param {Growth} growth
 * @param {string} recipe
 */
export function leach(growth, recipe) {
  const { random, finished, day } = growth;
  growth.write('tests', growth.newId('t'), {
    date: day.date,
    kind: 'leach',
    recipe,
    lot: finished[0],
    result: 'below the limits',
    leach: {
      method: 'ASTM C738',
      ware: 'cup',
      lead: `${(random.int(1, 9) / 100).toFixed(2)} mg/L`,
      cadmium: `${(random.int(1, 9) / 1000).toFixed(3)} mg/L`,
      lab: 'Valley Laboratory',
    },
  });
}

const COUNTED = ['stoneware', 'feldspar', 'quartz', 'chalk', 'kaolin', 'boxes'];

/**
 * The month's stocktake of materials, a little less than the book has.
 * @param {Growth} growth
 */
export function countMaterials(growth) {
  const { random, stock, day } = growth;
  const materials = COUNTED.map((id) => {
    const unit = id === 'boxes' ? 'each' : 'kg';
    const found = Math.floor((stock.get(id) ?? 0) * (0.985 + random.next() / 66) * 10) / 10;
    const count = unit === 'each' ? Math.floor(found) : found;
    stock.set(id, count);
    return {
      material: id,
      quantity: quantity(count, unit),
      why: random.chance(0.1) ? 'spilled' : undefined,
    };
  });
  growth.write('counted', growth.newId('c'), { date: day.date, materials });
}

/**
 * The quarter's stocktake of firsts in the studio; products that came out of the kiln lately wait
 * for the next one.
 * @param {Growth} growth
 */
export function countPieces(growth) {
  const { random, ware, resting, day } = growth;
  const still = ware.filter(({ product }) => !resting.some(({ lot }) => lot.product === product));
  if (still.length === 0) return;
  const pieces = still.map((shelf) => {
    const short = shelf.first > 2 && random.chance(0.15) ? 1 : 0;
    shelf.first -= short;
    return {
      product: shelf.product.id,
      grade: 'first',
      count: shelf.first,
      why: short > 0 ? 'broken on the shelf' : undefined,
    };
  });
  growth.write('counted', growth.newId('c'), { date: day.date, pieces });
}
