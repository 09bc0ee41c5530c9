/** The grown studio's making: purchases, mixes, lots and firings of one day. */
import { CLASSES, MATERIALS, RECIPES } from './grow-definitions.js';
import { change, dayOf, money, quantity } from './grow-state.js';

/** @import { Growth, LotState, WareState } from './grow-state.js' */
/** @import { RecipeFacts } from './grow-definitions.js' */
/** @import { TreeMap } from '../helpers/yaml-tree.ts' */

/** What lots may take of the kiln's 280; the rest is for classes and other people's ware. */
const LOT_SPACE = 260;
const SUPPLIERS = ['Hill Clay Merchants', 'Tumbledown Clay Store', 'Carton and Wrap'];

/**
 * Orders whatever runs short, in one purchase.
 * @param {Growth} growth
 */
export function buy(growth) {
  const { random, stock, bags, counters, day } = growth;
  const short = MATERIALS.filter(({ id, order }) => (stock.get(id) ?? 0) < order * 0.45);
  if (short.length === 0) return;
  const id = growth.newId('b');
  counters.invoice += random.int(1, 40);
  const lines = short.map((material) => {
    change(stock, material.id, material.order);
    bags.set(material.id, id);
    const packs = material.kind === 'clay' ? `${material.order / 12.5} x 12.5 kg` : undefined;
    return {
      material: material.id,
      quantity: packs ?? quantity(material.order, material.unit),
      cost: money(Math.round(material.order * material.price * (0.95 + random.next() / 10))),
    };
  });
  growth.write('bought', id, {
    date: day.date,
    supplier: random.pick(SUPPLIERS),
    invoice: { text: `00${counters.invoice}` },
    lines,
    freight: random.chance(0.6) ? money(random.int(900, 6500)) : undefined,
    discount: random.chance(0.1) ? money(random.int(100, 400)) : undefined,
    tax: random.chance(0.2) ? money(random.int(200, 2500)) : undefined,
  });
}

/**
 * Throwing scraps that come back as clay.
 * @param {Growth} growth
 */
export function reclaim(growth) {
  const { random, stock, day } = growth;
  const kilos = random.int(20, 90) / 10;
  change(stock, 'stoneware', kilos);
  const record = { date: day.date, material: 'stoneware', quantity: quantity(kilos, 'kg') };
  growth.write('reclaimed', growth.newId('r'), record);
}

/**
 * Refills the emptiest bucket when it runs low and its materials are there.
 * @param {Growth} growth
 */
export function mix(growth) {
  const { random, stock, buckets, day } = growth;
  const low = RECIPES.filter(({ id }) => (buckets.get(id) ?? 0) < 8000);
  if (low.length === 0) return;
  const recipe = random.pick(low);
  const kilos = random.int(16, 24) / 2;
  const needs = needsOf(recipe, kilos);
  if (needs.some(([material, need]) => (stock.get(material) ?? 0) < need + 0.1)) return;
  for (const [material, need] of needs) change(stock, material, -need);
  change(buckets, recipe.id, kilos * 1000 * recipe.total);
  const id = growth.newId('m');
  const before = growth.mixes.get(recipe.id);
  growth.mixes.set(recipe.id, id);
  growth.write('mixed', id, {
    date: day.date,
    recipe: recipe.id,
    'base-weight': quantity(kilos, 'kg'),
    water: `${Number((kilos * 0.9).toFixed(1))} L`,
    gravity: (1.4 + random.int(0, 90) / 1000).toFixed(2),
    'tops-up': random.chance(0.5) ? before : undefined,
    lots: lotsOf(growth, recipe),
  });
}

/** @type {(recipe: RecipeFacts, kilos: number) => (readonly [string, number])[]} */
function needsOf({ base, additions }, kilos) {
  return [...base, ...additions].map(
    ([id, share]) => /** @type {const} */ ([id, (share / 100) * kilos]),
  );
}

/** @type {(growth: Growth, recipe: RecipeFacts) => TreeMap} */
function lotsOf({ bags }, { base }) {
  return Object.fromEntries(base.slice(0, 2).map(([material]) => [material, bags.get(material)]));
}

/** @type {(ware: WareState) => number} */
const missing = ({ product, first, coming }) => product.demand * 11 - first - coming;

/**
 * Makes a lot of the product that is missed most.
 * @param {Growth} growth
 */
export function makeLot(growth) {
  const { random, ware, stock, day } = growth;
  const wanted = ware.reduce((a, b) =>
    missing(b) / b.product.demand > missing(a) / a.product.demand ? b : a,
  );
  const { product } = wanted;
  const most = Math.floor(90 / product.space);
  const made = Math.min(most, 80, Math.max(8, Math.ceil(missing(wanted))) + random.int(0, 6));
  const kilos = (made * product.each) / 1000;
  if (missing(wanted) < 4 || (stock.get(product.clay) ?? 0) < kilos + 1) return;
  change(stock, product.clay, -kilos);
  const ready = Math.min(growth.last, day.number + random.int(3, 7));
  const lost = random.chance(0.35) ? random.int(1, 2) : 0;
  const lossDay = dayOf(random.int(day.number, ready)).date;
  const why = random.pick(['cracked', 'warped', 'dropped', 'collapsed', 'handle-crack']);
  wanted.coming += made - lost;
  growth.waiting.push({
    id: growth.newId('p'),
    product,
    count: made - lost,
    ready: ready + 1,
    stage: 'green',
    record: {
      date: day.date,
      product: product.id,
      made,
      ...(random.chance(0.5) ? { minutes: made * product.minutes + random.int(-20, 40) } : {}),
      ...(lost > 0 ? { lost: [{ date: lossDay, count: lost, why }] } : {}),
    },
  });
}

/** @typedef {'bisque' | 'glaze' | 'once'} Kind */
/** @type {readonly { kind: Kind, from: number }[]} */
const FIRINGS = [
  { kind: 'glaze', from: 168 },
  { kind: 'bisque', from: 168 },
  { kind: 'once', from: 50 },
];

/** @type {(lot: LotState) => Kind} */
const nextFiring = ({ product, stage }) => {
  if (product.once) return 'once';
  return stage === 'green' ? 'bisque' : 'glaze';
};

/**
 * Fires the kiln when enough lots wait for the same kind of firing.
 * @param {Growth} growth
 */
export function fire(growth) {
  const { day, counters } = growth;
  if (day.number < counters.lastFired + 3) return;
  for (const { kind, from } of FIRINGS) {
    const load = loadFor(growth, kind);
    const space = load.reduce((sum, { count, product }) => sum + count * product.space, 0);
    if (space < from) continue;
    counters.lastFired = day.number;
    drawGlaze(growth, load, kind);
    writeFiring(growth, load, kind);
    return;
  }
}

/** @type {(growth: Growth, kind: Kind) => LotState[]} */
function loadFor({ waiting, day, buckets }, kind) {
  const glaze = new Map(buckets);
  let space = LOT_SPACE;
  return waiting.filter((lot) => {
    const { count, product } = lot;
    if (lot.ready > day.number || nextFiring(lot) !== kind || count * product.space > space)
      return false;
    const short = product.glazes.some(([id, each]) => (glaze.get(id) ?? 0) < each * count + 100);
    if (kind !== 'bisque' && short) return false;
    for (const [id, each] of product.glazes) change(glaze, id, -each * count);
    space -= count * product.space;
    return true;
  });
}

/** @type {(growth: Growth, load: readonly LotState[], kind: Kind) => void} */
function drawGlaze({ buckets }, load, kind) {
  if (kind === 'bisque') return;
  for (const { count, product } of load)
    for (const [id, each] of product.glazes) change(buckets, id, -each * count);
}

/** @type {(growth: Growth, load: readonly LotState[], kind: Kind) => void} */
function writeFiring(growth, load, kind) {
  const { random, counters, stock, day } = growth;
  const used = kind === 'bisque' ? random.int(520, 640) : random.int(880, 1080);
  const before = counters.meter;
  counters.meter += used;
  const supplies = /** @type {const} */ ([['witness-cones', 3]]);
  for (const [id, count] of supplies) change(stock, id, -count);
  const cone = kind === 'bisque' ? '04' : '6';
  const id = growth.newId('f');
  growth.write('firings', id, {
    date: day.date,
    kiln: 'front-loader',
    kind,
    cone: { text: cone },
    'cone-seen': { text: random.chance(0.9) ? cone : kind === 'bisque' ? '05' : '5½' },
    peak: `${(kind === 'bisque' ? 1060 : 1222) + random.int(-4, 4)} °C`,
    hours: (random.int(70, 95) / 10).toFixed(1),
    started: random.pick(['06:30', '07:15', '20:00', '21:30']),
    meter: { before: (before / 10).toFixed(1), after: (counters.meter / 10).toFixed(1) },
    tended: (random.int(2, 8) / 4).toFixed(2),
    supplies: supplies.map(([material, count]) => ({ material, quantity: count })),
    load: [...load.map((lot) => loadLine(growth, lot, kind)), ...guests(growth)],
  });
}

/**
 * Ware of a class or of somebody else that is fired along.
 * @type {(growth: Growth) => TreeMap[]}
 */
function guests({ random }) {
  const count = random.int(3, 12);
  if (random.chance(0.2))
    return [
      { class: random.pick(CLASSES), in: count, first: count - 1, lost: 1, why: { cracked: 1 } },
    ];
  return random.chance(0.1)
    ? [{ outside: 'a neighbour', in: count, first: count, space: '1.2' }]
    : [];
}

/** @type {Record<Kind, { loss: number, second: number, causes: readonly string[] }>} */
const FATES = {
  bisque: { loss: 0.02, second: 0, causes: ['cracked', 'exploded', 's-crack', 'chipped'] },
  glaze: { loss: 0.03, second: 0.05, causes: ['crawled', 'pinholed', 'stuck', 'ran', 'crazed'] },
  once: { loss: 0.05, second: 0.06, causes: ['warped', 'pinholed', 'blistered', 'dunted'] },
};

/** @type {(random: Growth['random'], count: number, share: number) => number} */
function some(random, count, share) {
  let hits = 0;
  for (let piece = 0; piece < count; piece += 1) hits += random.chance(share) ? 1 : 0;
  return hits;
}

/** @type {(growth: Growth, lot: LotState, kind: Kind) => TreeMap} */
function loadLine(growth, lot, kind) {
  const { random } = growth;
  const fate = FATES[kind];
  const count = lot.count;
  const lost = some(random, count, fate.loss);
  const second = some(random, count - lost, fate.second);
  const flawed = lost + second;
  settle(growth, lot, { kind, lost, second });
  return {
    lot: lot.id,
    in: count,
    first: count - flawed,
    second: second > 0 ? second : undefined,
    lost: lost > 0 ? lost : undefined,
    why: flawed > 0 ? { [random.pick(fate.causes)]: flawed } : undefined,
  };
}

/** @type {(growth: Growth, lot: LotState, fate: { kind: Kind, lost: number, second: number }) => void} */
function settle(growth, lot, { kind, lost, second }) {
  const { day, random } = growth;
  const ware = growth.ware.find(({ product }) => product === lot.product);
  if (ware !== undefined) ware.coming -= kind === 'bisque' ? lost : lot.count;
  lot.count -= lost;
  if (kind === 'bisque') {
    lot.stage = 'bisque';
    lot.ready = day.number + random.int(1, 4);
    return;
  }
  growth.waiting = growth.waiting.filter((other) => other !== lot);
  growth.resting.push({ lot, first: lot.count - second, second, since: day.number });
}
