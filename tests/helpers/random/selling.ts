/** What a random studio sells, takes back, and sends to galleries. */
import type { RandomSource } from '../random-source.js';
import type { Tree } from '../yaml-tree.ts';
import { fairOf, useAdvance } from './ahead.ts';
import { orderFor } from './ordering.ts';
import { otherIncome, worthOf, type SaleLine } from './other-income.ts';
import { draw } from './stocking.ts';
import { byCard, givenBack, terms } from './terms.ts';
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
  type World,
} from './world.ts';

/** Ware that lines can't tell apart: of one product or lot, glaze, grade and place. */
interface Shelf {
  readonly sample: Batch;
  readonly batches: readonly Batch[];
  readonly count: number;
}

function shelvesAt(world: World, place: string): Shelf[] {
  const shelves = new Map<string, Batch[]>();
  for (const batch of world.batches) {
    if (batch.place !== place || batch.from > world.day || batch.count === 0) continue;
    const key = JSON.stringify([...Object.entries(wareOf(batch)), batch.grade]);
    shelves.set(key, [...(shelves.get(key) ?? []), batch]);
  }
  return [...shelves.values()].flatMap((batches) => {
    const [sample] = batches;
    if (sample === undefined) return [];
    return [{ sample, batches, count: batches.reduce((sum, { count }) => sum + count, 0) }];
  });
}

/** How a line names the ware, without its grade. */
function wareOf({ lot }: Batch): Fields {
  const { product, id, glazes } = lot;
  return {
    product: product.id,
    lot: product.named ? id : undefined,
    glaze: product.variants.length > 0 ? glazes[0]?.recipe : undefined,
  };
}

/** A line of ware: firsts often go without saying. */
function lineOf({ sample }: Shelf, count: number, random: RandomSource): Fields {
  const says = sample.grade === 'second' || random.chance(0.3);
  return { ...wareOf(sample), grade: says ? sample.grade : undefined, count };
}

/** Takes so many off a shelf, the oldest first. */
function take({ batches }: Shelf, wanted: number): void {
  let left = wanted;
  for (const batch of batches) {
    const count = Math.min(left, batch.count);
    batch.count -= count;
    left -= count;
  }
}

/** Sends ware to galleries, fetches some back, and finds some missing. */
export function consign(world: World): void {
  if (!has(world, 'consigned')) return;
  const random = sourceOf(world, 'consign');
  if (!random.chance(0.2)) return;
  const channel = random.pick(['north-gallery', 'harbour-gallery']);
  const back = random.chance(0.6) ? moveSome(world, { from: channel, to: '', random }) : [];
  const missing = random.chance(0.3)
    ? moveSome(world, { from: channel, to: 'nowhere', random })
    : [];
  const sent = random.chance(0.8) ? moveSome(world, { from: '', to: channel, random }) : [];
  if (sent.length + back.length + missing.length === 0) return;
  const owed = missing.map((line) => ({
    ...line,
    ...(random.chance(0.5) ? { owed: money(world, 12), paid: paidForMissing(world) } : {}),
  }));
  const fields = {
    date: world.date,
    channel,
    sent: sent.length > 0 ? sent : undefined,
    back: back.length > 0 ? back : undefined,
    missing: owed.length > 0 ? owed : undefined,
  };
  write(world, 'consigned', { id: newId(world, 'g'), fields });
}

/** Mostly a day to come, or no where that is after the last; with a source of its own. */
function paidForMissing(world: World): Tree | undefined {
  const random = sourceOf(world, 'missing');
  const day = world.day + random.int(0, 40);
  const paid = day < world.plan.days ? dateOf(day) : 'no';
  return random.chance(0.3) ? undefined : random.chance(0.2) ? 'no' : paid;
}

/** Moved ware may go on from the next day, so that no order within the day can make it short. */
function moveSome(
  world: World,
  { from, to, random }: { from: string; to: string; random: RandomSource },
): Fields[] {
  const shelves = random.shuffle(shelvesAt(world, from)).slice(0, random.int(1, 3));
  return shelves.map((shelf) => {
    const over = breaks(world, from === '' ? 'sold' : 'consigned', random) ? 1 : 0;
    const count = random.int(1, shelf.count);
    const { lot, grade } = shelf.sample;
    const line = lineOf(shelf, count + over, random);
    take(shelf, count);
    if (to !== 'nowhere')
      world.batches.push({ lot, grade, place: to, count, from: world.day + 1, fresh: false });
    const priced = to !== '' && random.chance(0.5);
    // Low enough that no statement sells for less.
    return { ...line, price: priced ? money(world, lot.product.price / 10) : undefined };
  });
}

/** The day's sales. */
export function sell(world: World): void {
  for (let turn = 0; turn < world.plan.pace; turn += 1) {
    const random = sourceOf(world, 'sale', turn);
    if (random.chance(0.2)) makeSale(world, random);
  }
}

function makeSale(world: World, random: RandomSource): void {
  const channel = random.pick(world.definitions.channels);
  const place = channel.kind === 'consignment' ? channel.id : '';
  const back = takeBack(world, { place, random });
  const sold = soldAt(world, { place, isAlone: back.isAlone, random });
  const lines = [...sold, ...exchange(world, { place, sold, random })];
  const other = place === '' ? otherIncome(world, random) : [];
  const all = [...back.before, ...lines, ...back.lines, ...(back.isAlone ? [] : other)];
  if (all.length === 0) return;
  const goods = lines.reduce((sum, { worth }) => sum + worth, 0);
  const returned = all.filter(({ line }) => 'returned' in line);
  const worth = goods > 0 ? goods : returned.reduce((sum, line) => sum + line.back, 0);
  const mayBeOff = returned.length === 0 || has(world, 'exchanges');
  const fields = {
    date: world.date,
    channel: channel.id,
    fair: channel.kind === 'fair' ? fairOf(world, random) : undefined,
    ...(has(world, 'terms') ? terms(world, channel, { goods: worth, random }) : {}),
    ...(returned.length > 0 ? givenBack(world, channel, random) : {}),
    lines: all.map(({ line }) => line),
    discount:
      has(world, 'sale-discounts') && worth > 1 && mayBeOff && random.chance(0.25)
        ? random.pick(['10%', '12.5%', '1'])
        : undefined,
    advances: returned.length === 0 ? useAdvance(world, goods, random) : undefined,
  };
  const givenBackFor = returned.reduce((sum, line) => sum + line.back, 0);
  const card =
    fields.advances === undefined
      ? byCard(world, channel, { goods, back: givenBackFor })
      : undefined;
  write(world, 'sales', { id: newId(world, 's'), fields: { ...fields, card } });
}

interface Selling {
  readonly place: string;
  readonly random: RandomSource;
}

function soldAt(
  world: World,
  { place, isAlone, random }: Selling & { isAlone: boolean },
): SaleLine[] {
  if (isAlone) return [];
  return random
    .shuffle(shelvesAt(world, place))
    .slice(0, random.pick([1, 1, 2, 3]))
    .map((shelf) => saleLine(world, shelf, random));
}

function saleLine(world: World, shelf: Shelf, random: RandomSource): SaleLine {
  const { sample } = shelf;
  const { price, boxes } = sample.lot.product;
  const over = breaks(world, sample.place === '' ? 'sold' : 'consigned', random)
    ? random.int(1, 3)
    : 0;
  const count = random.int(1, Math.min(4, shelf.count));
  const each = price * (sample.grade === 'second' ? 0.6 : random.pick([1, 1, 0.55]));
  const text = money(world, each);
  const off = has(world, 'sale-discounts') && random.chance(0.2);
  take(shelf, count);
  world.sold.push({ batch: sample, price: text });
  if (boxes > 0) draw(world, 'boxes', boxes * (count + over));
  const line = {
    ...lineOf(shelf, count + over, random),
    'for-order': orderFor(world, sample.lot.product.id, count + over),
    price: text,
    discount: off ? random.pick(['10%', '33.3%', '1']) : undefined,
  };
  return { line, worth: each * count, back: 0 };
}

interface Back {
  /** Lines of the sale before and after those that sell other ware. */
  readonly before: readonly SaleLine[];
  readonly lines: readonly SaleLine[];
  /** Whether nothing is sold beside them. */
  readonly isAlone: boolean;
}

const NOTHING_BACK: Back = { before: [], lines: [], isAlone: false };

/**
 * Something sold on an earlier day comes back, and is for sale from the next day on, or is sold again
 * in the same sale. Where lots of a product differ in glaze the line names the lot, so that it is clear
 * which glaze is back.
 */
function takeBack(world: World, { place, random }: Selling): Back {
  if (!has(world, 'returns') || (place !== '' && !has(world, 'gallery-returns')))
    return NOTHING_BACK;
  if (world.sold.length === 0 || !random.chance(0.2)) return NOTHING_BACK;
  const [{ batch, price }] = world.sold.splice(random.int(0, world.sold.length - 1), 1) as [
    World['sold'][number],
  ];
  const { lot, grade } = batch;
  const back = backLine(batch, { price, worth: worthOf(world, price) });
  const isAgain = has(world, 'exchanges') && random.chance(0.3);
  if (isAgain) {
    const line = { ...back.line, returned: undefined };
    const { boxes } = lot.product;
    if (boxes > 0) draw(world, 'boxes', boxes);
    return {
      before: [back, { line, worth: worthOf(world, price), back: 0 }],
      lines: [],
      isAlone: false,
    };
  }
  world.batches.push({ lot, grade, place, count: 1, from: world.day + 1, fresh: false });
  const isAlone = has(world, 'returns-alone') && random.chance(0.4);
  return { before: [], lines: [back], isAlone };
}

function backLine(batch: Batch, { price, worth }: { price: string; worth: number }): SaleLine {
  const { lot, grade } = batch;
  const line = {
    ...wareOf(batch),
    ...(lot.product.variants.length > 0 ? { lot: lot.id } : {}),
    grade: grade === 'second' ? grade : undefined,
    count: 1,
    price,
    returned: 'yes',
  };
  return { line, worth: 0, back: worth };
}

/** One of what the sale sells comes back at once. */
function exchange(
  world: World,
  { place, sold, random }: Selling & { sold: readonly SaleLine[] },
): SaleLine[] {
  const [first] = sold;
  const bought = world.sold.at(-sold.length);
  if (!has(world, 'exchanges') || !first || !bought || !random.chance(0.1)) return [];
  const { lot, grade } = bought.batch;
  world.sold.splice(world.sold.indexOf(bought), 1);
  world.batches.push({ lot, grade, place, count: 1, from: world.day + 1, fresh: false });
  const line = { ...first.line, discount: undefined };
  const back = worthOf(world, bought.price);
  return [{ line: { ...line, count: 1, returned: 'yes' }, worth: 0, back }];
}
