/** How pots of an invented studio are made: what truly goes into each, and what is written of it. */
import { keepLot, lotText, newId, note, type Bin, type Life, type Pot } from './kept-life.ts';

/** A bag is bought. */
export function buy(
  life: Life,
  material = life.random.pick(['clay', 'clay', 'silica', 'frit']),
): void {
  const id = newId(life, 'b');
  const isClay = material === 'clay';
  const amount = life.random.int(8, 20);
  const number = life.random.chance(0.7) ? `N${life.count}` : undefined;
  const lot = number === undefined ? '' : `, lot: ${number}`;
  const unit = isClay ? 'kg' : 'g';
  const line = `material: ${material}, quantity: ${amount} ${unit}, cost: 10${lot}`;
  note(life, 'bought', [id, `supplier: X, lines: [{ ${line} }]`]);
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

/** A lot is thrown, of one bag or of several. */
export function throwLot(life: Life): void {
  const product = life.random.pick(['mug', 'mug', 'bowl']);
  const made = life.random.int(2, 6);
  const material = life.random.pick(['clay', 'clay', 'reclaim', 'body']);
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
      grade: 'first',
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

/** A clay is mixed of bags of two materials. */
export function mixClay(life: Life): void {
  if (life.bins['silica']?.every(({ left }) => left < 1) !== false) return;
  const grog = take(life, 'silica', 1);
  const clay = grog && take(life, 'clay', 3);
  if (!clay) return;
  const id = newId(life, 'm');
  const named = grog.only && life.random.chance(0.5) ? `, lots: { silica: ${grog.only.name} }` : '';
  note(life, 'mixed', [id, `recipe: body, base-weight: 3001 g, yields: 4 kg${named}`]);
  const all = new Set([id, ...grog.in, ...clay.in]);
  (life.bins['body'] ??= []).push({ key: id, name: id, left: 4, in: all });
  life.supplies.push({ id, key: id });
}

/** What was there before the book: a bag of clay and finished ware, which no record knows more of. */
export function countOpening(life: Life): void {
  const id = newId(life, 'c');
  const count = life.random.int(1, 4);
  const clay = 'materials: [{ material: clay, quantity: 6 kg, cost: 4 }]';
  note(life, 'counted', [id, `${clay}, pieces: [{ product: mug, count: ${count}, cost: 8 }]`]);
  life.bins['clay']?.push({ key: `${id}/0`, name: id, left: 6, in: new Set([`${id}/0`]) });
  life.supplies.push({ id, key: `${id}/0` });
  for (let at = 0; at < count; at += 1)
    life.pots.push({
      lot: `${id}/0`,
      product: 'mug',
      glaze: '',
      in: new Set(),
      stage: 2,
      finished: true,
      grade: 'first',
      place: '',
      left: [],
    });
}

/** A glaze is mixed, into a bucket of its own or on top of another. */
export function mixGlaze(life: Life): void {
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
  note(life, 'mixed', [id, `recipe: ${recipe}, base-weight: ${weight} g${tops}${named}`]);
  life.supplies.push({ id, key: id });
  if (!topped) life.buckets.push({ recipe, in: all, last: id });
  else {
    for (const key of all) topped.in.add(key);
    topped.last = id;
  }
}

/** All buckets of a recipe are emptied, and a stocktake says so. */
export function emptyBuckets(life: Life): void {
  const recipe = life.random.pick(['white', 'green']);
  life.buckets = life.buckets.filter((bucket) => bucket.recipe !== recipe);
  const id = newId(life, 'c');
  note(life, 'counted', [id, `materials: [{ material: ${recipe}, quantity: 0 g }]`]);
}

/** All trimmings are reclaimed. */
export function reclaimClay(life: Life): void {
  if (life.slop.size === 0) return;
  const id = newId(life, 'r');
  const amount = life.random.int(2, 6);
  note(life, 'reclaimed', [id, `material: reclaim, quantity: ${amount} kg`]);
  // It is wedged into what is left of the last.
  const rest = (life.bins['reclaim'] ?? []).filter(({ left }) => left > 0);
  const all = new Set([id, ...life.slop, ...rest.flatMap((bin) => [...bin.in])]);
  const left = amount + rest.reduce((sum, bin) => sum + bin.left, 0);
  life.bins['reclaim'] = [{ key: id, name: id, left, in: all }];
  life.slop = new Set();
  life.supplies.push({ id, key: id });
}

/** A kiln is fired with some of what waits for it. */
export function fire(life: Life): void {
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
  note(life, 'firings', [id, `kiln: kiln, kind: ${kind}, load: [${lines.join(', ')}]`]);
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
  const second = stage === 1 && life.random.chance(0.4) ? some.length - lost : 0;
  const graded = Math.min(second, life.random.int(0, 2));
  life.passes.set(lot, (life.passes.get(lot) ?? 0) + 1);
  some.forEach((pot, at) => {
    pot.in.add(id);
    pot.stage = stage + 1;
    pot.finished = stage === 1;
    pot.grade = at >= some.length - graded ? 'second' : 'first';
    if (at < lost) pot.place = undefined;
  });
  const first = some.length - lost - graded;
  return [`{ lot: ${lot}, in: ${some.length}, first: ${first}, second: ${graded}, lost: ${lost} }`];
}

/** Finished pots go into the kiln again, some with a new coat; one may not come through. */
export function refire(life: Life): void {
  const there = life.pots.filter((pot) => pot.finished && pot.place === '' && pot.glaze !== '');
  if (there.length === 0) return;
  const { lot } = life.random.pick(there);
  const all = life.random.shuffle(there.filter((pot) => pot.lot === lot));
  const some = all.slice(0, life.random.int(1, all.length));
  const id = newId(life, 'f');
  const at = life.passes.get(lot) ?? 0;
  const text = lotText.get(lot);
  if (text?.mixes === undefined && life.random.chance(0.5)) coatAgain(life, some);
  const lost = life.random.chance(0.4) ? 1 : 0;
  const second = Math.min(some.length - lost, life.random.int(0, 1));
  life.passes.set(lot, at + 1);
  some.forEach((pot, number) => {
    pot.in.add(id);
    pot.grade = number < lost + second ? 'second' : 'first';
    if (number < lost) leave(pot, `${id}/${at}`);
  });
  life.firings.push(id);
  const came = `first: ${some.length - lost - second}, second: ${second}, lost: ${lost}`;
  const line = `{ lot: ${lot}, in: ${some.length}, ${came}, refire: yes }`;
  note(life, 'firings', [id, `kiln: kiln, kind: glaze, load: [${line}]`]);
}

/** What is put on before a refire is not noted. */
function coatAgain(life: Life, pots: readonly Pot[]): void {
  const buckets = life.buckets.filter(({ recipe }) => recipe === pots[0]?.glaze);
  for (const pot of buckets.length === 0 ? [] : pots)
    for (const key of life.random.pick(buckets).in) pot.in.add(key);
}

/** A pot is gone, by a line of a record. */
export function leave(pot: Pot, line: string): void {
  pot.place = undefined;
  pot.left.push(line);
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
