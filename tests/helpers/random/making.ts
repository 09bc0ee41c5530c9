/** Lots of a random studio: made, partly lost, and later partly gone. */
import type { RandomSource } from '../random-source.js';
import type { Tree } from '../yaml-tree.ts';
import { fairOf } from './ahead.ts';
import { draw, drawMix } from './stocking.ts';
import type { GlazeFacts, ProductFacts } from './products.ts';
import {
  breaks,
  dateOf,
  has,
  money,
  newId,
  sourceOf,
  write,
  type Batch,
  type Fields,
  type Lot,
  type World,
} from './world.ts';

/** Makes lots, more of them the higher the pace. */
export function makeLots(world: World): void {
  for (let turn = 0; turn < world.plan.pace; turn += 1) {
    const random = sourceOf(world, 'lot', turn);
    if (random.chance(0.14)) makeLot(world, random);
  }
}

function makeLot(world: World, random: RandomSource): void {
  const product = random.pick(world.definitions.products);
  const id = newId(world, 'p');
  const made = random.int(1, random.pick([1, 6, 14, 20]));
  const glazes = glazesOf(product, random);
  const clay = clayOf(world, product, random);
  drawClay(world, clay.material, clay.grams * made);
  const ready = world.day + random.int(1, 6);
  const lost = losses(world, { made, ready, random });
  const left = lost.reduce((count, loss) => count - loss.count, made);
  const fields: Fields = {
    date: world.date,
    product: product.id,
    made,
    clay: clay.field,
    glazes: glazes === product.glazes ? undefined : glazes.map(glazeField),
    ...(has(world, 'lot-details') ? details(world, product, random) : {}),
    lost: lost.length > 0 ? lost.map((loss) => ({ ...loss })) : undefined,
  };
  const stages = product.fired.map((_, stage) => (stage === 0 ? left : 0));
  world.lots.push({ id, product, glazes, stages, ready, record: fields, batches: 0 });
  write(world, 'pieces', { id, fields });
}

function glazeField({ recipe, each }: GlazeFacts): Tree {
  return { recipe, each: `${each} g` };
}

function glazesOf(product: ProductFacts, random: RandomSource): readonly GlazeFacts[] {
  if (product.variants.length === 0 || random.chance(0.4)) return product.glazes;
  return [{ recipe: random.pick(product.variants), each: random.int(1, 120) }];
}

interface ClayOfLot {
  readonly material: string | undefined;
  readonly grams: number;
  readonly field: Tree | undefined;
}

/** The product's clay, or in part another, with or without the bag's number. */
function clayOf(world: World, { clay }: ProductFacts, random: RandomSource): ClayOfLot {
  const own = { material: clay?.material, grams: clay?.grams ?? 0, field: undefined };
  if (!has(world, 'lot-details') || !random.chance(0.4)) return own;
  const grams = random.int(90, 1500);
  if (clay === undefined || random.chance(0.3)) {
    const material = random.pick(['stoneware', 'red-clay']);
    return { material, grams, field: { material, each: `${grams} g` } };
  }
  const bags = world.bags.get(clay.material) ?? [];
  if (bags.length > 0 && random.chance(0.5))
    return { ...own, field: { lot: { text: random.pick(bags) } } };
  return { ...own, grams, field: { each: `${grams} g` } };
}

function drawClay(world: World, material: string | undefined, grams: number): void {
  if (material === undefined) return;
  if (material === 'body') drawMix(world, material, grams);
  else draw(world, material, grams);
}

function details(world: World, { price }: ProductFacts, random: RandomSource): Fields {
  return {
    title: random.chance(0.2)
      ? { text: random.pick(['Moon', '1984', 'Shore: low tide']) }
      : undefined,
    price: random.chance(0.2) ? money(world, price * 1.5) : undefined,
    minutes: random.chance(0.4) ? random.int(10, 600) : undefined,
    maker: random.chance(0.2) ? { text: random.pick(['A. Example', 'guest']) } : undefined,
    mark: random.chance(0.1) ? { text: random.pick(['07', 'wave']) } : undefined,
  };
}

interface Loss extends Readonly<Record<string, Tree>> {
  readonly date: string;
  readonly count: number;
  readonly why: string;
}

/** Greenware that is lost before the first firing; never after the studio's last day. */
function losses(
  world: World,
  { made, ready, random }: { made: number; ready: number; random: RandomSource },
): Loss[] {
  const list: Loss[] = [];
  if (!has(world, 'making-losses')) return list;
  let left = made;
  while (left > 0 && random.chance(0.25)) {
    const count = random.int(1, left);
    const day = random.int(world.day, ready - 1);
    const why = random.pick(['cracked', 'warped', 'dropped', 'collapsed', 'handle-crack']);
    left -= count;
    if (day < world.plan.days) list.push({ date: dateOf(day), count, why });
  }
  return list;
}

/** What is given away, kept or broken, before the day's sales. */
export function letGo(world: World): void {
  if (!has(world, 'gone')) return;
  const random = sourceOf(world, 'gone');
  const loose = world.batches.filter((batch) => mayGo(world, batch));
  if (loose.length === 0 || !random.chance(0.2)) return;
  const batch = random.pick(loose);
  const over = breaks(world, 'gone', random) ? 2 : 0;
  const count = random.int(1, batch.count) + over;
  batch.count = Math.max(0, batch.count - count);
  addGone(batch, {
    date: world.date,
    count,
    how: random.pick(['gift', 'kept', 'broken', 'given-away', 'missing']),
    grade: batch.grade === 'second' || random.chance(0.5) ? batch.grade : undefined,
    channel: batch.place === '' ? undefined : batch.place,
    fair: batch.place === '' ? fairOf(world, random) : undefined,
  });
}

/**
 * A lot that no line names may lose pieces only while none of it can have been sold: on the day after
 * it was finished, before it is for sale, when all of it was finished at once.
 */
function mayGo(world: World, { count, lot, from, fresh }: Batch): boolean {
  if (count === 0) return false;
  if (lot.product.named) return from <= world.day;
  return fresh && lot.batches === 1 && from === world.day + 1;
}

function addGone({ lot }: Batch, gone: Fields): void {
  const list = (lot.record['gone'] ?? []) as readonly Tree[];
  lot.record['gone'] = [...list, gone];
}

/** Puts finished pieces on the shelf; lots that no line names wait there for two days. */
export function shelve(
  world: World,
  lot: Lot,
  { first, second }: { first: number; second: number },
): void {
  lot.batches += 1;
  const from = lot.product.named ? world.day : world.day + 2;
  for (const [grade, count] of [
    ['first', first],
    ['second', second],
  ] as const)
    if (count > 0) world.batches.push({ lot, grade, place: '', count, from, fresh: true });
}
