/** The grown studio's ware after the kiln: what is given away, sent to galleries and sold. */
import { CLASSES, GALLERIES, PACKING, SHOPS } from './grow-definitions.js';
import { change, dayOf, money } from './grow-state.js';

/** @import { Growth, WareState } from './grow-state.js' */
/** @import { Tree, TreeMap } from '../helpers/yaml-tree.ts' */

/**
 * Two days after the kiln a lot's ware is for sale, less what was given away the day after it.
 * Until then nothing else touches the lot, so the giving never meets a piece that was sold.
 * @param {Growth} growth
 */
export function putOnShelf(growth) {
  const ripe = growth.resting.filter(({ since }) => growth.day.number >= since + 2);
  if (ripe.length === 0) return;
  growth.resting = growth.resting.filter((rest) => !ripe.includes(rest));
  for (const rest of ripe) shelve(growth, rest);
}

/** @type {(growth: Growth, rest: Growth['resting'][number]) => void} */
function shelve({ random, ware, write, finished }, { lot, first, second, since }) {
  const given = first > 3 && random.chance(0.25) ? 1 : 0;
  const shelf = ware.find(({ product }) => product === lot.product);
  if (shelf === undefined) return;
  shelf.first += first - given;
  shelf.second += second;
  finished.push(lot.id);
  if (finished.length > 12) finished.shift();
  const how = random.pick(['gift', 'kept', 'broken', 'given-away']);
  const gone = [{ date: dayOf(since + 1).date, count: given, how }];
  write('pieces', lot.id, given > 0 ? { ...lot.record, gone } : lot.record);
}

/**
 * Records of lots that the studio's last day finds unfinished.
 * @param {Growth} growth
 */
export function writeRest(growth) {
  for (const lot of [...growth.waiting, ...growth.resting.map((rest) => rest.lot)])
    growth.write('pieces', lot.id, lot.record);
}

/** @type {(growth: Growth, has: (ware: WareState) => number) => WareState | undefined} */
function pickWare({ random, ware }, has) {
  const shelves = ware.filter((shelf) => has(shelf) > 0);
  const total = shelves.reduce((sum, { product }) => sum + product.demand, 0);
  let at = random.next() * total;
  return shelves.find(({ product }) => (at -= product.demand) < 0);
}

/**
 * Ware on its way to a gallery; now and then some comes back or is found missing.
 * @param {Growth} growth
 */
export function consign(growth) {
  const { random, day } = growth;
  const gallery = random.pick(GALLERIES);
  const sent = Array.from({ length: random.int(2, 4) }, () => sendOne(growth, gallery));
  const back = random.chance(0.2) ? fetchOne(growth, gallery, random.int(1, 2)) : undefined;
  const missing = random.chance(0.06) ? fetchOne(growth, gallery, 1) : undefined;
  const lines = sent.filter((line) => line !== undefined);
  if (lines.length === 0) return;
  growth.write('consigned', growth.newId('g'), {
    date: day.date,
    channel: gallery,
    sent: lines,
    back: back && [back],
    missing: missing && [{ ...missing, owed: money(random.int(10, 30) * 100) }],
  });
}

/** @type {(growth: Growth, gallery: string) => TreeMap | undefined} */
function sendOne(growth, gallery) {
  const shelf = pickWare(growth, ({ first }) => first);
  if (shelf === undefined) return undefined;
  const count = Math.min(shelf.first, growth.random.int(2, 5));
  shelf.first -= count;
  change(shelf.away, gallery, count);
  return { product: shelf.product.id, count, price: money(shelf.product.price * 115) };
}

/**
 * Takes ware out of a gallery; what comes back is written off here so that no order of the day's
 * records can make it short.
 * @type {(growth: Growth, gallery: string, most: number) => { product: string, count: number } | undefined}
 */
function fetchOne(growth, gallery, most) {
  const shelf = pickWare(growth, ({ away }) => (away.get(gallery) ?? 0) - 5);
  if (shelf === undefined) return undefined;
  change(shelf.away, gallery, -most);
  return { product: shelf.product.id, count: most };
}

/** @type {(growth: Growth, count: number) => void} */
function pack({ stock }, count) {
  for (const [material, each] of PACKING) change(stock, material, -each * count);
}

/**
 * A gallery's statement of what it sold, from the ware that was there before today.
 * @param {Growth} growth
 */
export function reportGallery(growth) {
  const { random, counters, day } = growth;
  const gallery = random.pick(GALLERIES);
  const lines = Array.from({ length: random.int(1, 3) }, () => {
    const shelf = pickWare(growth, ({ away }) => (away.get(gallery) ?? 0) - 5);
    if (shelf === undefined) return undefined;
    change(shelf.away, gallery, -1);
    pack(growth, 1);
    return {
      shelf,
      line: { product: shelf.product.id, count: 1, price: money(shelf.product.price * 115) },
    };
  }).filter((one) => one !== undefined);
  if (lines.length === 0) return;
  counters.statement += 1;
  const takings = lines.reduce((sum, { shelf }) => sum + shelf.product.price * 115, 0);
  growth.write('sales', growth.newId('s'), {
    date: day.date,
    channel: gallery,
    statement: { text: String(counters.statement).padStart(4, '0') },
    lines: lines.map(({ line }) => line),
    commission: money(Math.round(takings * 0.4)),
  });
}

/**
 * A day at the Saturday market; returns its id.
 * @param {Growth} growth
 */
export function openFair(growth) {
  const id = growth.newId('k');
  const { date } = growth.day;
  growth.write('fairs', id, { date, name: 'Saturday market', channel: 'market', hours: 6 });
  return id;
}

/**
 * One sale of ware, with the fields that its channel brings along.
 * @param {Growth} growth
 * @param {string} [fair] where it is sold at one
 */
export function sell(growth, fair) {
  const { random, day } = growth;
  const channel = fair === undefined ? random.pick(SHOPS) : 'market';
  const trade = channel === 'trade';
  const wanted = random.chance(0.08) ? random.int(2, 3) : 1;
  const sold = Array.from({ length: wanted }, () => sellOne(growth, trade)).filter(
    (one) => one !== undefined,
  );
  if (sold.length === 0) return;
  const takings = sold.reduce((sum, { cents }) => sum + cents, 0);
  growth.write('sales', growth.newId('s'), {
    date: day.date,
    channel,
    fair,
    ...(trade ? tradeTerms(growth) : {}),
    lines: sold.map(({ line }) => line),
    discount: random.chance(0.02) ? random.pick(['10%', '5%', '2.00']) : undefined,
    ...(channel === 'web-shop' ? webTerms(growth, takings) : {}),
  });
}

/** @type {(growth: Growth, trade: boolean) => { line: TreeMap, cents: number } | undefined} */
function sellOne(growth, trade) {
  const { random } = growth;
  const second = !trade && random.chance(0.05);
  const shelf = pickWare(growth, (ware) => (second ? ware.second : ware.first));
  if (shelf === undefined) return undefined;
  const { product } = shelf;
  const most = trade ? random.int(2, 4) : random.chance(0.1) ? 2 : 1;
  const count = Math.min(most, second ? shelf.second : shelf.first);
  pack(growth, count);
  if (second) shelf.second -= count;
  else shelf.first -= count;
  const cents = product.price * (second ? 60 : trade ? 55 : 100);
  /** @type {Tree} */
  const line = {
    product: product.id,
    grade: second ? 'second' : undefined,
    count,
    price: money(cents),
  };
  return { line, cents: cents * count };
}

/** @type {(growth: Growth) => TreeMap} */
function tradeTerms({ random, day, last }) {
  const paid = day.number + random.int(7, 40);
  return { buyer: `Shop ${random.int(1, 40)}`, paid: paid > last ? 'no' : dayOf(paid).date };
}

/** @type {(growth: Growth, takings: number) => TreeMap} */
function webTerms({ random }, takings) {
  return {
    shipping: money(random.pick([650, 850, 1200])),
    tax: random.chance(0.4) ? money(Math.round(takings * 0.07)) : undefined,
    fee: money(Math.round(takings * 0.029) + 30),
  };
}

/**
 * A sale of something else than ware: a place in a class, or other income in words.
 * @param {Growth} growth
 */
export function sellOther(growth) {
  const { random, day } = growth;
  const line = random.chance(0.8)
    ? { class: random.pick(CLASSES), count: random.int(1, 2), price: '145.00' }
    : {
        for: random.pick(['kiln rental', 'commission work', 'talk at a school']),
        count: 1,
        price: money(random.int(20, 180) * 100),
      };
  growth.write('sales', growth.newId('s'), {
    date: day.date,
    channel: 'studio-door',
    lines: [line],
  });
}

/**
 * A piece of a product that sells all the time comes back to the studio.
 * @param {Growth} growth
 */
export function takeBack(growth) {
  const line = { product: 'mug', count: 1, price: '32.00', returned: 'yes' };
  growth.write('sales', growth.newId('s'), {
    date: growth.day.date,
    channel: 'studio-door',
    lines: [line],
  });
}
