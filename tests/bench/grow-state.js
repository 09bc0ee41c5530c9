/** What the grown studio has at hand while its days pass: stock, buckets, lots and ware. */
import { GALLERIES, MATERIALS, PRODUCTS, RECIPES } from './grow-definitions.js';
import { randomSource } from '../helpers/random-source.js';

/** @import { ProductFacts } from './grow-definitions.js' */
/** @import { RandomSource } from '../helpers/random-source.js' */
/** @import { TreeMap } from '../helpers/yaml-tree.ts' */

/**
 * A lot on its way; its record is written once nothing more can be added to it.
 * @typedef {object} LotState
 * @property {string} id
 * @property {ProductFacts} product
 * @property {number} count pieces that are still good
 * @property {number} ready the first day on which it may be fired next
 * @property {'green' | 'bisque'} stage
 * @property {Record<string, import('../helpers/yaml-tree.ts').Tree>} record
 */

/**
 * Finished ware of one product: what may be sold, and what came out of the kiln too lately.
 * @typedef {object} WareState
 * @property {ProductFacts} product
 * @property {number} first
 * @property {number} second
 * @property {number} coming pieces of lots that are not finished
 * @property {Map<string, number>} away firsts at each gallery
 */

/**
 * @typedef {object} Resting
 * @property {LotState} lot
 * @property {number} first
 * @property {number} second
 * @property {number} since day of its last firing
 */

/**
 * @typedef {object} Day
 * @property {number} number days since 1970-01-01
 * @property {string} date
 * @property {number} weekday 0 is Sunday
 * @property {boolean} monthEnds
 */

/**
 * @typedef {object} Growth
 * @property {RandomSource} random
 * @property {Day} day
 * @property {number} last number of the studio's last day
 * @property {(kind: string, id: string, record: TreeMap) => void} write
 * @property {(letter: string) => string} newId
 * @property {Map<string, number>} stock material → quantity in its unit
 * @property {Map<string, string>} bags material → id of its latest purchase
 * @property {Map<string, number>} buckets recipe → grams of dry glaze
 * @property {Map<string, string>} mixes recipe → id of its latest mix
 * @property {WareState[]} ware
 * @property {LotState[]} waiting lots that are not finished
 * @property {Resting[]} resting
 * @property {string[]} finished ids of some lots that were finished lately
 * @property {{ meter: number, lastFired: number, statement: number, invoice: number }} counters meter in tenths of a kWh
 */

/**
 * Ids as `add` makes them: the kind's letter, the date, two letters.
 * @param {() => Day} today
 * @returns {(letter: string) => string}
 */
function idMaker(today) {
  /** @type {Map<string, number>} */
  let used = new Map();
  let date = '';
  return (letter) => {
    const day = today();
    if (day.date !== date) used = new Map();
    date = day.date;
    const count = used.get(letter) ?? 0;
    used.set(letter, count + 1);
    const pair = (count * 147 + Math.abs(day.number) * 31) % 676;
    const letters = String.fromCharCode(97 + Math.floor(pair / 26), 97 + (pair % 26));
    return `${letter}${date.slice(2).replaceAll('-', '')}${letters}`;
  };
}

/**
 * A studio before its first day.
 * @param {number} seed
 * @param {{ first: Day, last: number, write: Growth['write'] }} frame
 * @returns {Growth}
 */
export function newGrowth(seed, { first, last, write }) {
  /** @type {Growth} */
  const growth = {
    random: randomSource(seed),
    day: first,
    last,
    write,
    newId: idMaker(() => growth.day),
    stock: new Map(MATERIALS.map(({ id }) => [id, 0])),
    bags: new Map(),
    buckets: new Map(RECIPES.map(({ id }) => [id, 0])),
    mixes: new Map(),
    ware: PRODUCTS.map((product) => ({
      product,
      first: 0,
      second: 0,
      coming: 0,
      away: new Map(GALLERIES.map((gallery) => [gallery, 0])),
    })),
    waiting: [],
    resting: [],
    finished: [],
    counters: { meter: 0, lastFired: first.number, statement: 0, invoice: 4100 },
  };
  return growth;
}

/** @type {(map: Map<string, number>, key: string, change: number) => void} */
export const change = (map, key, by) => void map.set(key, (map.get(key) ?? 0) + by);

/**
 * The date of a day number, with what the routine asks of it.
 * @param {number} number days since 1970-01-01
 * @returns {Day}
 */
export function dayOf(number) {
  const time = new Date(number * 86_400_000);
  return {
    number,
    date: time.toISOString().slice(0, 10),
    weekday: time.getUTCDay(),
    monthEnds: new Date((number + 1) * 86_400_000).getUTCDate() === 1,
  };
}

/** @type {(cents: number) => string} */
export const money = (cents) => (cents / 100).toFixed(2);

/**
 * A quantity in its unit without superfluous digits.
 * @param {number} value
 * @param {string} unit
 * @returns {string | number}
 */
export function quantity(value, unit) {
  return unit === 'each' ? Math.round(value) : `${Number(value.toFixed(2))} ${unit}`;
}
