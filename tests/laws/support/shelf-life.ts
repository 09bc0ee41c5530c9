/** A studio in which every pot is known: what is truly in it and where it went, and what its book says. */
import { addDays } from '../../../src/number/date.ts';
import type { Files } from '../../helpers/book.ts';
import { randomSource } from '../../helpers/random-source.js';

type Source = ReturnType<typeof randomSource>;

/** One pot, as nobody could follow it. */
export interface Pot {
  readonly lot: string;
  readonly product: string;
  readonly glaze: string;
  /** Keys of all bags, batches and mixes in it, and ids of the firings that it was in. */
  readonly in: Set<string>;
  stage: number;
  finished: boolean;
  /** Undefined once it has left or was lost. */
  place: string | undefined;
  /** The lines by which it left, `id/line`. */
  readonly left: string[];
}

/** The pots, and the book that was kept of them. */
export interface ShelfLife {
  readonly files: Files;
  readonly asOf: string;
  readonly pots: readonly Pot[];
  readonly lots: readonly string[];
  readonly firings: readonly string[];
  /** What can be traced, with the key by which pots have it. */
  readonly supplies: readonly { readonly id: string; readonly key: string }[];
}

interface Bin {
  readonly key: string;
  readonly name: string;
  left: number;
  /** Everything in it. */
  readonly in: Set<string>;
}

interface Bucket {
  readonly recipe: string;
  readonly in: Set<string>;
  last: string;
}

interface Life {
  readonly random: Source;
  date: string;
  count: number;
  readonly text: Record<string, string[]>;
  readonly bins: Record<string, Bin[]>;
  buckets: Bucket[];
  /** What is in the trimmings that wait to be reclaimed. */
  slop: Set<string>;
  readonly pots: Pot[];
  readonly lots: string[];
  readonly firings: string[];
  readonly supplies: { id: string; key: string }[];
}

const DEFINITIONS: Files = {
  materials: `
clay: { name: Clay, kind: clay, unit: kg }
reclaim: { name: Reclaim, kind: clay, unit: kg }
silica: { name: Silica, kind: dry, unit: g }
frit: { name: Frit, kind: dry, unit: g }
`,
  recipes: `
white: { name: White, kind: glaze, versions: [{ from: 2026-01-01, base: [{ material: silica, parts: 50 }, { material: frit, parts: 50 }] }] }
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
  };
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

function newId(life: Life, letter: string): string {
  life.count += 1;
  return `${letter}${life.count}`;
}

function note(life: Life, kind: string, id: string, fields: string): void {
  (life.text[kind] ??= []).push(`${id}: { date: ${life.date}, ${fields} }`);
}

function buy(life: Life, material = life.random.pick(['clay', 'clay', 'silica', 'frit'])): void {
  const id = newId(life, 'b');
  const isClay = material === 'clay';
  const amount = life.random.int(8, 20);
  const number = life.random.chance(0.7) ? `N${life.count}` : undefined;
  const lot = number === undefined ? '' : `, lot: ${number}`;
  const unit = isClay ? 'kg' : 'g';
  const line = `material: ${material}, quantity: ${amount} ${unit}, cost: 10${lot}`;
  note(life, 'bought', id, `supplier: X, lines: [{ ${line} }]`);
  const key = `${id}/0`;
  life.bins[material]?.push({ key, name: number ?? id, left: amount, in: new Set([key]) });
  life.supplies.push({ id: number !== undefined && life.random.chance(0.5) ? number : id, key });
}

/** Takes from one bin after another; gives what is in it, and the one bin where it was one. */
function take(
  life: Life,
  material: string,
  amount: number,
): { in: Set<string>; only?: Bin } | undefined {
  const bins = life.random.shuffle((life.bins[material] ?? []).filter(({ left }) => left > 0));
  if (bins.reduce((all, { left }) => all + left, 0) < amount) return undefined;
  const taken: Bin[] = [];
  let wanted = amount;
  for (const bin of bins) {
    if (wanted === 0) break;
    const some = Math.min(wanted, bin.left);
    bin.left -= some;
    wanted -= some;
    taken.push(bin);
  }
  const all = new Set(taken.flatMap((bin) => [...bin.in]));
  return taken.length === 1 && taken[0] ? { in: all, only: taken[0] } : { in: all };
}

function throwLot(life: Life): void {
  const product = life.random.pick(['mug', 'mug', 'bowl']);
  const made = life.random.int(2, 6);
  const fromReclaim = life.random.chance(0.3);
  const material = fromReclaim ? 'reclaim' : 'clay';
  const clay = take(life, material, made);
  if (!clay) return;
  const id = newId(life, 'p');
  const bag = clay.only && life.random.chance(0.5) ? `, lot: ${clay.only.name}` : '';
  const glaze = life.random.chance(0.3) ? 'green' : product === 'mug' ? 'white' : 'green';
  const glazes = `, glazes: [{ recipe: ${glaze}, each: 1 g }]`;
  life.lots.push(id);
  for (const key of clay.in) life.slop.add(key);
  for (let at = 0; at < made; at += 1)
    life.pots.push({
      lot: id,
      product,
      glaze,
      in: new Set(clay.in),
      stage: 0,
      finished: false,
      place: '',
      left: [],
    });
  lotText.set(id, {
    life,
    fields: `product: ${product}, made: ${made}, clay: { material: ${material}${bag} }${glazes}`,
    gone: [],
    mixes: undefined,
    date: life.date,
  });
  keepLot(id);
}

interface LotText {
  readonly life: Life;
  readonly date: string;
  readonly fields: string;
  readonly gone: string[];
  mixes: string | undefined;
}

/** Lots are written anew when more becomes known of them. */
const lotText = new Map<string, LotText>();

function keepLot(id: string): void {
  const lot = lotText.get(id);
  if (!lot) return;
  const lines = (lot.life.text['pieces'] ??= []);
  const gone = lot.gone.length === 0 ? '' : `, gone: [${lot.gone.join(', ')}]`;
  const mixes = lot.mixes === undefined ? '' : `, mixes: ${lot.mixes}`;
  const text = `${id}: { date: ${lot.date}, ${lot.fields}${gone}${mixes} }`;
  const at = lines.findIndex((line) => line.startsWith(`${id}:`));
  if (at === -1) lines.push(text);
  else lines[at] = text;
}

function mixGlaze(life: Life): void {
  const recipe = life.random.pick(['white', 'green']);
  const weight = 4;
  const parts = recipe === 'white' ? { silica: 2, frit: 2 } : { silica: 4 };
  const materials = Object.keys(parts);
  const isThere = Object.entries(parts).every(
    ([material, amount]) =>
      (life.bins[material] ?? []).reduce((all, { left }) => all + left, 0) >= amount,
  );
  if (!isThere) return;
  const id = newId(life, 'm');
  const lots: string[] = [];
  const all = new Set([id]);
  for (const material of materials) {
    const got = take(life, material, recipe === 'white' ? 2 : 4);
    for (const key of got?.in ?? []) all.add(key);
    if (got?.only && life.random.chance(0.5)) lots.push(`${material}: ${got.only.name}`);
  }
  const old = life.buckets.filter((bucket) => bucket.recipe === recipe);
  const topped = old.length > 0 && life.random.chance(0.5) ? life.random.pick(old) : undefined;
  const tops = topped ? `, tops-up: ${topped.last}` : '';
  const named = lots.length === 0 ? '' : `, lots: { ${lots.join(', ')} }`;
  note(life, 'mixed', id, `recipe: ${recipe}, base-weight: ${weight} g${tops}${named}`);
  life.supplies.push({ id, key: id });
  if (!topped) life.buckets.push({ recipe, in: all, last: id });
  else {
    for (const key of all) topped.in.add(key);
    topped.last = id;
  }
}

/** All buckets of a recipe are emptied, and a stocktake says so. */
function emptyBuckets(life: Life): void {
  const recipe = life.random.pick(['white', 'green']);
  life.buckets = life.buckets.filter((bucket) => bucket.recipe !== recipe);
  const id = newId(life, 'c');
  note(life, 'counted', id, `materials: [{ material: ${recipe}, quantity: 0 g }]`);
}

function reclaimClay(life: Life): void {
  if (life.slop.size === 0) return;
  const id = newId(life, 'r');
  const amount = life.random.int(2, 6);
  note(life, 'reclaimed', id, `material: reclaim, quantity: ${amount} kg`);
  // It is wedged into what is left of the last.
  const rest = (life.bins['reclaim'] ?? []).filter(({ left }) => left > 0);
  const all = new Set([id, ...life.slop, ...rest.flatMap((bin) => [...bin.in])]);
  const left = amount + rest.reduce((sum, bin) => sum + bin.left, 0);
  life.bins['reclaim'] = [{ key: id, name: id, left, in: all }];
  life.slop = new Set();
  life.supplies.push({ id, key: id });
}

function fire(life: Life): void {
  const stage = life.random.int(0, 1);
  const waiting = life.lots.filter((lot) => potsOf(life, lot, stage).length > 0);
  if (waiting.length === 0) return;
  const id = newId(life, 'f');
  const lines = life.random
    .shuffle(waiting)
    .slice(0, 3)
    .flatMap((lot) => fireLot(life, { id, lot, stage }));
  if (lines.length === 0) return;
  const kind = stage === 0 ? 'bisque' : 'glaze';
  life.firings.push(id);
  note(life, 'firings', id, `kiln: kiln, kind: ${kind}, load: [${lines.join(', ')}]`);
}

function potsOf(life: Life, lot: string, stage: number): Pot[] {
  return life.pots.filter(
    (pot) => pot.lot === lot && pot.place !== undefined && !pot.finished && pot.stage === stage,
  );
}

function fireLot(
  life: Life,
  { id, lot, stage }: { id: string; lot: string; stage: number },
): string[] {
  const ready = life.random.shuffle(potsOf(life, lot, stage));
  const some = ready.slice(
    0,
    life.random.chance(0.7) ? ready.length : life.random.int(1, ready.length),
  );
  if (stage === 1 && !glaze(life, lot, some)) return [];
  const lost = life.random.chance(0.3) ? life.random.int(0, 1) : 0;
  some.forEach((pot, at) => {
    pot.in.add(id);
    pot.stage = stage + 1;
    pot.finished = stage === 1;
    if (at < lost) pot.place = undefined;
  });
  return [`{ lot: ${lot}, in: ${some.length}, first: ${some.length - lost}, lost: ${lost} }`];
}

/** Pots of one load line may be dipped into several buckets; one that holds them all may be noted. */
function glaze(life: Life, lot: string, pots: readonly Pot[]): boolean {
  const recipe = pots[0]?.glaze;
  const buckets = life.buckets.filter((bucket) => bucket.recipe === recipe);
  if (buckets.length === 0) return false;
  const one = life.random.pick(buckets);
  const isOne = life.random.chance(0.6);
  for (const pot of pots)
    for (const key of (isOne ? one : life.random.pick(buckets)).in) pot.in.add(key);
  const all = life.pots.filter((pot) => pot.lot === lot);
  const text = lotText.get(lot);
  const isWhole = pots.length === all.length;
  if (text && isOne && isWhole && life.random.chance(0.6)) {
    text.mixes = `{ ${recipe}: ${one.last} }`;
    keepLot(lot);
  }
  return true;
}

/** Pots of one product and glaze or lot at a place, and the words by which a line says which. */
function choose(life: Life, place: string): { pots: Pot[]; words: string } | undefined {
  const there = life.pots.filter((pot) => pot.finished && pot.place === place);
  if (there.length === 0) return undefined;
  const first = life.random.pick(there);
  const sayLot = life.random.chance(0.3);
  const sayGlaze = life.random.chance(0.5);
  const fits = there.filter(
    (pot) =>
      pot.product === first.product &&
      (!sayLot || pot.lot === first.lot) &&
      (!sayGlaze || pot.glaze === first.glaze),
  );
  const pots = life.random.shuffle(fits).slice(0, life.random.int(1, 3));
  const words = [
    `product: ${first.product}`,
    ...(sayLot ? [`lot: ${first.lot}`] : []),
    ...(sayGlaze ? [`glaze: ${first.glaze}`] : []),
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
  note(life, 'sales', id, `channel: ${place === '' ? 'door' : place}${buyer}, lines: [${line}]`);
  for (const pot of chosen.pots) leave(pot, `${id}/0`);
}

function leave(pot: Pot, line: string): void {
  pot.place = undefined;
  pot.left.push(line);
}

function bringBack(life: Life): void {
  const sold = life.pots.filter(
    (pot) => pot.place === undefined && pot.left.at(-1)?.startsWith('s'),
  );
  if (sold.length === 0) return;
  const pot = life.random.pick(sold);
  const id = newId(life, 's');
  const lot = life.random.chance(0.5) ? `, lot: ${pot.lot}` : '';
  const line = `{ product: ${pot.product}${lot}, count: 1, price: 10, returned: yes }`;
  note(life, 'sales', id, `channel: door, lines: [${line}]`);
  pot.place = '';
}

function carry(life: Life): void {
  const isSent = life.random.chance(0.7);
  const chosen = choose(life, isSent ? '' : 'gallery');
  if (!chosen) return;
  const id = newId(life, 'c');
  note(
    life,
    'consigned',
    id,
    `channel: gallery, ${isSent ? 'sent' : 'back'}: [{ ${chosen.words} }]`,
  );
  for (const pot of chosen.pots) pot.place = isSent ? 'gallery' : '';
}

function giveAway(life: Life): void {
  const place = life.random.pick(['', 'gallery']);
  const there = life.pots.filter((pot) => pot.finished && pot.place === place);
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
  note(life, 'counted', id, `pieces: [{ product: ${product}, count: ${count}${where} }]`);
}

const HAPPENINGS: readonly ((life: Life) => void)[] = [
  (life) => buy(life),
  throwLot,
  throwLot,
  throwLot,
  mixGlaze,
  mixGlaze,
  fire,
  fire,
  fire,
  fire,
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
