/** The firings of a random studio. */
import type { RandomSource } from '../random-source.js';
import type { Tree } from '../yaml-tree.ts';
import { heat, supplies } from './heat.ts';
import type { KilnFacts } from './kilns.ts';
import { shelve } from './making.ts';
import { drawMix } from './stocking.ts';
import {
  breaks,
  has,
  newId,
  sourceOf,
  write,
  type Batch,
  type Fields,
  type Lot,
  type World,
} from './world.ts';

/** Fires each kiln for which enough waits, one kind at a time. */
export function fireKilns(world: World): void {
  for (const kiln of world.definitions.kilns) {
    const random = sourceOf(world, 'fire', kiln.id);
    if (random.chance(0.06 * world.plan.pace)) fireKiln(world, kiln, random);
  }
}

/** Pieces of a lot that wait for their next firing. */
interface Waiting {
  readonly lot: Lot;
  readonly stage: number;
  readonly kind: string;
}

function fireKiln(world: World, kiln: KilnFacts, random: RandomSource): void {
  const all = world.lots.filter(({ ready }) => ready <= world.day).flatMap(waitingOf);
  const again = flawed(world).map(({ lot }) => ({ lot, kind: lot.product.fired.at(-1) ?? '' }));
  const start = choose<{ lot: Lot; kind: string }>(
    random.chance(0.3) ? [again, all] : [all],
    random,
  );
  const isTest = has(world, 'lot-tests') && random.chance(0.1);
  const kind = isTest ? 'test' : (start?.kind ?? 'test');
  const cone = coneOf(kind, start?.lot);
  const fitting = all.filter((one) => one.kind === kind && coneOf(kind, one.lot) === cone);
  const room = { left: kiln.space };
  const refired = refires(world, { kind, cone, room, random });
  const loaded = random
    .shuffle(fitting)
    .map((waiting) => loadLine(world, { waiting, room, random }))
    .filter((line) => line !== undefined);
  const tested = isTest ? testLines(world, random) : [];
  const load = [...loaded, ...refired, ...tested, ...guests(world, room, random)];
  if (load.length === 0) return;
  const fields = {
    date: world.date,
    kiln: kiln.id,
    kind,
    ...heat(world, { kiln, cone, random }),
    tended: has(world, 'labour') && random.chance(0.6) ? random.int(1, 12) / 4 : undefined,
    supplies: supplies(world, random),
    load,
  };
  write(world, 'firings', { id: newId(world, 'f'), fields });
}

function waitingOf(lot: Lot): Waiting[] {
  return lot.stages.flatMap((count, stage) =>
    count > 0 ? [{ lot, stage, kind: lot.product.fired[stage] ?? '' }] : [],
  );
}

function coneOf(kind: string, lot: Lot | undefined): string {
  if (kind === 'bisque') return '04';
  if (kind === 'lustre') return '018';
  return lot?.product.cone ?? '6';
}

interface Room {
  left: number;
}

/** One line of the load; nothing where the kiln has no room for it. */
function loadLine(
  world: World,
  { waiting, room, random }: { waiting: Waiting; room: Room; random: RandomSource },
): Fields | undefined {
  const { lot, stage, kind } = waiting;
  const { product } = lot;
  const there = lot.stages[stage] ?? 0;
  const stacked = has(world, 'part-loads') && random.chance(0.15) ? 0.25 : undefined;
  const space = stacked ?? product.space;
  const split = has(world, 'part-loads') && !isTwice(lot) && random.chance(0.4);
  const some = split ? random.int(1, there) : there;
  const fits = Math.min(some, isTwice(lot) ? there : Math.floor(room.left / space));
  if (fits < 1 || fits * space > room.left) return undefined;
  const over = breaks(world, 'lots', random) ? random.int(1, 3) : 0;
  const count = fits + over;
  room.left -= fits * space;
  lot.stages[stage] = there - fits;
  lot.ready = world.day + 1;
  drawGlaze(world, waiting, count);
  const result = outcome(world, { count, last: stage === product.fired.length - 1, random });
  if (result !== undefined) passOn(world, waiting, { ...result });
  const astray = kind === 'bisque' && breaks(world, 'out-of-turn', random);
  const others = world.lots.filter((other) => other.product !== product);
  const named = astray && others.length > 0 ? random.pick(others) : lot;
  return { lot: named.id, in: count, ...result?.fields, space: stacked };
}

/** Where a kind comes twice, a lot goes through it whole, so that it is clear which time it is. */
function isTwice({ product: { fired } }: Lot): boolean {
  return new Set(fired).size < fired.length;
}

const GLAZING = ['glaze', 'once', 'raku'];

/** Glaze goes on before the first firing that matures it; where there is none, before the last. */
function drawGlaze(world: World, { lot, stage }: Waiting, count: number): void {
  const { fired } = lot.product;
  const first = fired.findIndex((kind) => GLAZING.includes(kind));
  if (stage !== (first === -1 ? fired.length - 1 : first)) return;
  for (const { recipe, each } of lot.glazes) drawMix(world, recipe, each * count);
}

function passOn(
  world: World,
  { lot, stage }: Waiting,
  { first, second }: { first: number; second: number },
): void {
  if (stage === lot.stages.length - 1) shelve(world, lot, { first, second });
  else lot.stages[stage + 1] = (lot.stages[stage + 1] ?? 0) + first + second;
}

interface Outcome {
  readonly first: number;
  readonly second: number;
  readonly fields: Fields;
}

/** What came out; nothing while the pieces are still in the kiln. */
function outcome(
  world: World,
  { count, last, random }: { count: number; last: boolean; random: RandomSource },
): Outcome | undefined {
  if (has(world, 'still-in-kiln') && random.chance(0.06)) return undefined;
  const allLost = has(world, 'firing-losses') && random.chance(0.05);
  const lossy = has(world, 'firing-losses') && random.chance(0.5);
  const lost = allLost ? count : lossy ? random.int(0, Math.ceil(count / 3)) : 0;
  const graded = has(world, 'seconds') && random.chance(last ? 0.5 : 0.1);
  const second = graded ? random.int(0, Math.ceil((count - lost) / 2)) : 0;
  const first = count - lost - second;
  const flaws = lost + second;
  const fields = {
    first: first > 0 || flaws === 0 || random.chance(0.3) ? first : undefined,
    second: second > 0 || random.chance(0.2) ? second : undefined,
    lost: lost > 0 || random.chance(0.2) ? lost : undefined,
    why: flaws > 0 && random.chance(0.7) ? causes(flaws, random) : undefined,
  };
  return { first, second, fields };
}

function causes(flaws: number, random: RandomSource): Tree {
  const [one = 'other', two = 'ran'] = random.shuffle([
    'cracked',
    's-crack',
    'crawled',
    'pinholed',
    'stuck',
    'crazed',
    'dunted',
    'colour',
  ]);
  const some = random.int(1, flaws);
  return some < flaws && random.chance(0.6)
    ? { [one]: some, [two]: flaws - some }
    : { [one]: some };
}

/** Seconds in the studio that may go through their last firing again: only of lots that lines name. */
function flawed(world: World): Batch[] {
  if (!has(world, 'refires')) return [];
  return world.batches.filter(
    ({ lot, grade, place, count, from }) =>
      lot.product.named && grade === 'second' && place === '' && count > 0 && from < world.day,
  );
}

function refires(
  world: World,
  { kind, cone, room, random }: { kind: string; cone: string; room: Room; random: RandomSource },
): Fields[] {
  const fitting = flawed(world).filter(
    ({ lot: { product }, lot, count }) =>
      product.fired.at(-1) === kind &&
      coneOf(kind, lot) === cone &&
      count * product.space <= room.left,
  );
  const batch = choose([fitting], random);
  if (batch === undefined) return [];
  const count = random.int(1, batch.count);
  batch.count -= count;
  room.left -= count * batch.lot.product.space;
  const result = outcome(world, { count, last: true, random });
  if (result !== undefined) shelve(world, batch.lot, result);
  return [{ lot: batch.lot.id, in: count, ...result?.fields, refire: 'yes' }];
}

/** A test firing leaves pieces where they were; finished ware only of lots that lines name. */
function testLines(world: World, random: RandomSource): Fields[] {
  const lots = world.lots.filter((lot) => lot.ready <= world.day && !isTwice(lot));
  const lot = choose([lots], random);
  if (lot === undefined) return [];
  const stage = lot.stages.findIndex((count) => count > 0);
  if (stage === -1) return lot.product.named ? testFinished(world, lot, random) : [];
  const there = lot.stages[stage] ?? 0;
  const count = random.int(1, Math.min(there, 3));
  const result = outcome(world, { count, last: false, random });
  lot.stages[stage] = there - count + (result ? result.first + result.second : 0);
  lot.ready = world.day + 1;
  return [{ lot: lot.id, in: count, ...result?.fields }];
}

function testFinished(world: World, lot: Lot, random: RandomSource): Fields[] {
  const here = world.batches.filter(
    (batch) => batch.lot === lot && batch.place === '' && batch.from < world.day && batch.count > 0,
  );
  const batch = here.find(({ grade }) => grade === 'second') ?? here[0];
  if (batch === undefined) return [];
  const count = random.int(1, Math.min(batch.count, 2));
  batch.count -= count;
  const result = outcome(world, { count, last: true, random });
  if (result !== undefined) shelve(world, lot, result);
  return [{ lot: lot.id, in: count, ...result?.fields }];
}

/** One of the first list that has any. */
function choose<T>(lists: readonly (readonly T[])[], random: RandomSource): T | undefined {
  const list = lists.find(({ length }) => length > 0);
  return list && random.pick(list);
}

function guests(world: World, room: Room, random: RandomSource): Fields[] {
  if (!has(world, 'guests') || !random.chance(0.5) || room.left < 3) return [];
  const count = random.int(1, Math.min(8, Math.floor(room.left / 1.5)));
  const result = outcome(world, { count, last: true, random });
  const { classes } = world.definitions;
  const whose =
    classes.length > 0 && random.chance(0.5)
      ? { class: random.pick(classes) }
      : { outside: { text: random.pick(['a neighbour', 'B. Example: 2 jars']) } };
  room.left -= count * 1.5;
  return [
    { ...whose, in: count, ...result?.fields, space: random.chance(0.5) ? '1.5' : undefined },
  ];
}
