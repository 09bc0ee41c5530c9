/** A studio in which every pot is known: what is truly in it and where it went, and what its book says. */
import { addDays } from '../../../src/number/date.ts';
import type { Files } from '../../helpers/book.ts';
import { randomSource } from '../../helpers/random-source.js';
import { keepLot, lotText, newId, note, type Life, type Pot, type ShelfLife } from './kept-life.ts';
import {
  buy,
  countOpening,
  emptyBuckets,
  fire,
  leave,
  mixClay,
  mixGlaze,
  reclaimClay,
  refire,
  throwLot,
} from './pot-making.ts';

const DEFINITIONS: Files = {
  materials: `
clay: { name: Clay, kind: clay, unit: kg }
reclaim: { name: Reclaim, kind: clay, unit: kg }
silica: { name: Silica, kind: dry, unit: g }
frit: { name: Frit, kind: dry, unit: g }
`,
  recipes: `
white: { name: White, kind: glaze, versions: [{ from: 2026-01-01, base: [{ material: silica, parts: 50 }, { material: frit, parts: 50 }] }] }
body: { name: Body, kind: clay, versions: [{ from: 2026-01-01, base: [{ material: clay, parts: 3000 }, { material: silica, parts: 1 }] }] }
green: { name: Green, kind: glaze, versions: [{ from: 2026-01-01, base: [{ material: silica, parts: 100 }] }] }
`,
  products: `
mug: { name: Mug, clay: { material: clay, each: 1 kg }, glazes: [{ recipe: white, each: 1 g }] }
bowl: { name: Bowl, clay: { material: clay, each: 1 kg }, glazes: [{ recipe: green, each: 1 g }] }
`,
  kilns: 'kiln: { name: Kiln, fuel: electricity }\n',
  channels: `
door: { name: Door, kind: direct }
gallery: { name: Gallery, kind: consignment }
`,
};
/** So many things happen, each on a day of its own, since a book has an order of its own within a day. */
const EVENTS = 45;

/** The studio of a seed. */
export function shelfLife(seed: number): ShelfLife {
  const life: Life = {
    random: randomSource(seed),
    date: '2026-01-02',
    count: 0,
    text: {},
    bins: { clay: [], reclaim: [], silica: [], frit: [] },
    buckets: [],
    slop: new Set(),
    pots: [],
    lots: [],
    firings: [],
    supplies: [],
    passes: new Map(),
  };
  if (life.random.chance(0.5)) countOpening(life);
  for (const material of ['clay', 'silica', 'frit']) buy(life, material);
  for (let at = 0; at < EVENTS; at += 1) {
    life.date = addDays(life.date, life.random.int(1, 3));
    life.random.pick(HAPPENINGS)(life);
  }
  const kept = Object.entries(life.text).map(([kind, lines]) => [kind, lines.join('\n')] as const);
  const { pots, lots, firings, supplies, date: asOf } = life;
  return {
    files: { ...DEFINITIONS, ...Object.fromEntries(kept) },
    asOf,
    pots,
    lots,
    firings,
    supplies,
  };
}
/** Pots of one product and glaze or lot at a place, and the words by which a line says which. */
function choose(life: Life, place: string): { pots: Pot[]; words: string } | undefined {
  const there = life.pots.filter((pot) => pot.finished && pot.place === place);
  if (there.length === 0) return undefined;
  const first = life.random.pick(there);
  const sayLot = life.random.chance(0.3) && first.glaze !== '';
  const sayGlaze = life.random.chance(0.5) && first.glaze !== '';
  const sayGrade = life.random.chance(0.3);
  const fits = there.filter(
    (pot) =>
      pot.product === first.product &&
      (!sayLot || pot.lot === first.lot) &&
      (!sayGlaze || pot.glaze === first.glaze) &&
      (!sayGrade || pot.grade === first.grade),
  );
  const pots = life.random.shuffle(fits).slice(0, life.random.int(1, 3));
  const words = [
    `product: ${first.product}`,
    ...(sayLot ? [`lot: ${first.lot}`] : []),
    ...(sayGlaze ? [`glaze: ${first.glaze}`] : []),
    ...(sayGrade ? [`grade: ${first.grade}`] : []),
    `count: ${pots.length}`,
  ];
  return { pots, words: words.join(', ') };
}

function sell(life: Life): void {
  const place = life.random.pick(['', '', 'gallery']);
  const chosen = choose(life, place);
  if (!chosen) return;
  const id = newId(life, 's');
  const buyer = life.random.chance(0.5) ? ', buyer: B' : '';
  const line = `{ ${chosen.words}, price: 10 }`;
  note(life, 'sales', [id, `channel: ${place === '' ? 'door' : place}${buyer}, lines: [${line}]`]);
  for (const pot of chosen.pots) leave(pot, `${id}/0`);
}

function bringBack(life: Life): void {
  const sold = life.pots.filter(
    (pot) => pot.place === undefined && pot.left.at(-1)?.startsWith('s'),
  );
  if (sold.length === 0) return;
  const pot = life.random.pick(sold);
  const id = newId(life, 's');
  const lot = life.random.chance(0.5) && pot.glaze !== '' ? `, lot: ${pot.lot}` : '';
  const line = `{ product: ${pot.product}${lot}, count: 1, price: 10, returned: yes }`;
  note(life, 'sales', [id, `channel: door, lines: [${line}]`]);
  pot.place = '';
}

function carry(life: Life): void {
  const isSent = life.random.chance(0.7);
  const chosen = choose(life, isSent ? '' : 'gallery');
  if (!chosen) return;
  const id = newId(life, 'c');
  note(life, 'consigned', [
    id,
    `channel: gallery, ${isSent ? 'sent' : 'back'}: [{ ${chosen.words} }]`,
  ]);
  for (const pot of chosen.pots) pot.place = isSent ? 'gallery' : '';
}

function giveAway(life: Life): void {
  const place = life.random.pick(['', 'gallery']);
  const there = life.pots.filter((pot) => pot.finished && pot.place === place && pot.glaze !== '');
  if (there.length === 0) return;
  const pot = life.random.pick(there);
  const text = lotText.get(pot.lot);
  if (!text) return;
  const channel = place === '' ? '' : ', channel: gallery';
  text.gone.push(`{ date: ${life.date}, count: 1, how: broken${channel} }`);
  keepLot(pot.lot);
  leave(pot, `${pot.lot}/${text.gone.length - 1}`);
}

/** Some may have gone unseen since the last one. */
function takeStock(life: Life): void {
  const place = life.random.pick(['', 'gallery']);
  const product = life.random.pick(['mug', 'bowl']);
  const there = life.pots.filter(
    (pot) => pot.finished && pot.place === place && pot.product === product,
  );
  const gone = life.random.chance(0.4) ? there.slice(0, 1) : [];
  const id = newId(life, 'c');
  for (const pot of gone) leave(pot, `${id}/0`);
  const where = place === '' ? '' : ', place: gallery';
  const count = there.length - gone.length;
  note(life, 'counted', [id, `pieces: [{ product: ${product}, count: ${count}${where} }]`]);
}
const HAPPENINGS: readonly ((life: Life) => void)[] = [
  (life) => {
    buy(life);
  },
  throwLot,
  throwLot,
  throwLot,
  mixGlaze,
  mixGlaze,
  fire,
  fire,
  fire,
  fire,
  refire,
  mixClay,
  reclaimClay,
  emptyBuckets,
  sell,
  sell,
  sell,
  sell,
  carry,
  carry,
  giveAway,
  bringBack,
  takeStock,
];
