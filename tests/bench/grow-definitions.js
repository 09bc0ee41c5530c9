/** What the grown studio defines once, however many years it runs: invented names and figures. */

/**
 * @typedef {object} MaterialFacts
 * @property {string} id
 * @property {string} name
 * @property {string} kind
 * @property {string} unit
 * @property {number} price cents per unit
 * @property {number} order how much is bought at once, in the unit
 */

/** @type {(id: string, kind: string, figures: [unit: string, price: number, order: number]) => MaterialFacts} */
const material = (id, kind, [unit, price, order]) => ({
  id,
  name: id.charAt(0).toUpperCase() + id.slice(1).replaceAll('-', ' '),
  kind,
  unit,
  price,
  order,
});

/** The twenty materials. */
export const MATERIALS = [
  material('stoneware', 'clay', ['kg', 140, 250]),
  material('porcelain', 'clay', ['kg', 260, 125]),
  material('feldspar', 'dry', ['kg', 220, 25]),
  material('quartz', 'dry', ['kg', 150, 25]),
  material('chalk', 'dry', ['kg', 130, 25]),
  material('kaolin', 'dry', ['kg', 180, 25]),
  material('dolomite', 'dry', ['kg', 160, 25]),
  material('talc', 'dry', ['kg', 190, 25]),
  material('ball-clay', 'dry', ['kg', 170, 25]),
  material('boron-frit', 'dry', ['kg', 540, 25]),
  material('bentonite', 'dry', ['kg', 240, 5]),
  material('iron-oxide', 'colourant', ['kg', 460, 10]),
  material('rutile', 'colourant', ['kg', 980, 5]),
  material('tin-oxide', 'colourant', ['kg', 5200, 5]),
  material('zircon', 'colourant', ['kg', 870, 10]),
  material('brush-on-clear', 'ready-mixed', ['gal', 4200, 4]),
  material('witness-cones', 'cone', ['each', 35, 100]),
  material('shelf-wash', 'other', ['kg', 600, 10]),
  material('boxes', 'packing', ['each', 90, 500]),
  material('tissue', 'packing', ['each', 4, 2500]),
];

/**
 * @typedef {object} RecipeFacts
 * @property {string} id
 * @property {readonly (readonly [material: string, parts: number])[]} base
 * @property {readonly (readonly [material: string, percent: number])[]} additions
 * @property {number} total dry weight of a mix with one part of base, additions included
 */

/** @type {(id: string, base: Record<string, number>, additions: Record<string, number>) => RecipeFacts} */
const recipe = (id, base, additions) => ({
  id,
  base: Object.entries(base),
  additions: Object.entries(additions),
  total: 1 + Object.values(additions).reduce((sum, percent) => sum + percent / 100, 0),
});

/** The glazes, all for cone 6. */
export const RECIPES = [
  recipe('clear', { feldspar: 40, quartz: 25, chalk: 15, kaolin: 10, 'boron-frit': 10 }, {}),
  recipe(
    'white',
    { feldspar: 38, quartz: 24, dolomite: 12, kaolin: 12, 'boron-frit': 14 },
    { zircon: 9, 'tin-oxide': 2 },
  ),
  recipe(
    'amber',
    { feldspar: 36, quartz: 22, chalk: 18, 'ball-clay': 12, 'boron-frit': 12 },
    { 'iron-oxide': 6 },
  ),
  recipe(
    'oat',
    { feldspar: 34, quartz: 20, talc: 14, kaolin: 16, 'boron-frit': 16 },
    { rutile: 5, bentonite: 1 },
  ),
  recipe(
    'temmoku',
    { feldspar: 45, quartz: 22, chalk: 17, kaolin: 8, 'boron-frit': 8 },
    { 'iron-oxide': 9 },
  ),
];

/**
 * @typedef {object} ProductFacts
 * @property {string} id
 * @property {string} clay id of the material
 * @property {number} each grams of clay in one
 * @property {readonly (readonly [recipe: string, each: number])[]} glazes grams of dry glaze on one
 * @property {number} space
 * @property {number} minutes
 * @property {number} price whole money
 * @property {number} demand share of the sales, in no unit
 * @property {boolean} once fired once
 */

/** @type {(id: string, facts: Omit<ProductFacts, 'id' | 'once'> & { once?: boolean }) => ProductFacts} */
const product = (id, facts) => ({ once: false, ...facts, id });

/** The fourteen products. */
export const PRODUCTS = [
  product('mug', {
    clay: 'stoneware',
    each: 420,
    glazes: [
      ['clear', 32],
      ['amber', 20],
    ],
    space: 1,
    minutes: 22,
    price: 32,
    demand: 24,
  }),
  product('espresso-cup', {
    clay: 'porcelain',
    each: 180,
    glazes: [['white', 24]],
    space: 0.5,
    minutes: 16,
    price: 22,
    demand: 12,
  }),
  product('tumbler', {
    clay: 'stoneware',
    each: 360,
    glazes: [['oat', 44]],
    space: 0.9,
    minutes: 14,
    price: 26,
    demand: 10,
  }),
  product('breakfast-bowl', {
    clay: 'stoneware',
    each: 620,
    glazes: [['temmoku', 70]],
    space: 1.6,
    minutes: 18,
    price: 34,
    demand: 12,
  }),
  product('small-bowl', {
    clay: 'porcelain',
    each: 300,
    glazes: [['clear', 40]],
    space: 0.8,
    minutes: 12,
    price: 20,
    demand: 9,
  }),
  product('serving-bowl', {
    clay: 'stoneware',
    each: 1900,
    glazes: [['white', 160]],
    space: 5,
    minutes: 45,
    price: 95,
    demand: 2,
  }),
  product('dinner-plate', {
    clay: 'stoneware',
    each: 1100,
    glazes: [['white', 95]],
    space: 3,
    minutes: 26,
    price: 44,
    demand: 4,
  }),
  product('side-plate', {
    clay: 'stoneware',
    each: 600,
    glazes: [['oat', 60]],
    space: 1.6,
    minutes: 18,
    price: 28,
    demand: 5,
  }),
  product('teapot', {
    clay: 'porcelain',
    each: 1200,
    glazes: [['amber', 105]],
    space: 3.5,
    minutes: 110,
    price: 120,
    demand: 1,
  }),
  product('jug', {
    clay: 'stoneware',
    each: 1000,
    glazes: [['temmoku', 90]],
    space: 2.6,
    minutes: 38,
    price: 58,
    demand: 3,
  }),
  product('vase', {
    clay: 'stoneware',
    each: 1300,
    glazes: [['oat', 80]],
    space: 3,
    minutes: 40,
    price: 68,
    demand: 2,
  }),
  product('planter', {
    clay: 'stoneware',
    each: 1100,
    glazes: [['amber', 50]],
    space: 2.8,
    minutes: 24,
    price: 42,
    demand: 3,
  }),
  product('tile', {
    clay: 'stoneware',
    each: 350,
    glazes: [['clear', 26]],
    space: 0.7,
    minutes: 9,
    price: 15,
    demand: 6,
    once: true,
  }),
  product('butter-dish', {
    clay: 'porcelain',
    each: 800,
    glazes: [['clear', 70]],
    space: 2,
    minutes: 48,
    price: 52,
    demand: 2,
  }),
];

/**
 * What every piece is packed in when it is sold.
 * @type {readonly (readonly [material: string, each: number])[]}
 */
export const PACKING = [
  ['boxes', 1],
  ['tissue', 2],
];

/** Where ware is sold from the studio, by how often. */
export const SHOPS = [
  ...Array.from({ length: 6 }, () => 'studio-door'),
  ...Array.from({ length: 5 }, () => 'web-shop'),
  'open-doors',
  'trade',
];
export const GALLERIES = ['north-gallery', 'harbour-gallery'];
export const CLASSES = ['wheel-evening', 'hand-building', 'glaze-weekend', 'family-morning'];
