/** The bookkeeping of a random studio: what was used, counted, spent and tested. */
import { addDays } from '../../../src/number/date.ts';
import { quarterOn } from '../../../src/reckon/tax/tax-period.ts';
import type { RandomSource } from '../random-source.js';
import { FACTORS } from './definitions.ts';
import { amountOf, buy, draw } from './stocking.ts';
import { fairOf } from './ahead.ts';
import {
  has,
  materialOf,
  money,
  newId,
  sourceOf,
  write,
  type Batch,
  type Fields,
  type World,
} from './world.ts';

/** Buys something that nothing needs yet. */
export function stockUp(world: World): void {
  const random = sourceOf(world, 'stock up');
  if (!random.chance(0.05)) return;
  const { id, unit } = random.pick(world.definitions.materials);
  buy(world, id, random.int(1, 20) * (FACTORS[unit] ?? 1));
}

/** Material that goes another way than into ware. */
export function useUp(world: World): void {
  const random = sourceOf(world, 'use');
  if (!has(world, 'used') || !random.chance(0.15)) return;
  const { id, unit, units } = random.pick(world.definitions.materials);
  const { text, base } = amountOf(random, (FACTORS[unit] ?? 1) * random.int(1, 5), units);
  const reasons = ['waste', 'studio', 'test', 'gift', undefined, ...world.definitions.classes];
  draw(world, id, base);
  write(world, 'used', {
    id: newId(world, 'u'),
    fields: { date: world.date, material: id, quantity: text, for: random.pick(reasons) },
  });
}

/** Counts some materials, and some ware, at the end of the day. */
export function takeStock(world: World): void {
  const random = sourceOf(world, 'count');
  const materials =
    has(world, 'material-counts') && random.chance(0.04) ? countMaterials(world, random) : [];
  const pieces =
    has(world, 'piece-counts') && random.chance(0.04) ? countPieces(world, random) : [];
  if (materials.length + pieces.length === 0) return;
  write(world, 'counted', {
    id: newId(world, 'c'),
    fields: {
      date: world.date,
      materials: materials.length > 0 ? materials : undefined,
      pieces: pieces.length > 0 ? pieces : undefined,
    },
  });
}

function countMaterials(world: World, random: RandomSource): Fields[] {
  const some = random.shuffle(world.definitions.materials).slice(0, random.int(1, 4));
  return some.map(({ id, unit, units }) => {
    const about = (world.stock.get(id) ?? 0) * random.pick([0, 0.9, 1, 1.1]);
    const found = about > 0 ? amountOf(random, about, units) : undefined;
    world.stock.set(id, found?.base ?? 0);
    return {
      material: id,
      quantity: found?.text ?? (unit === 'each' ? 0 : `0 ${materialOf(world, id).unit}`),
      why: random.chance(0.3) ? { text: 'spilled: a bag' } : undefined,
    };
  });
}

/**
 * Counts all of one grade of a product in one place. Ware whose lines name lots is counted as the book
 * has it, since a stocktake does not say which lot is short; ware that still rests waits.
 */
function countPieces(world: World, random: RandomSource): Fields[] {
  const product = random.pick(world.definitions.products);
  const grade = random.pick(['first', 'second'] as const);
  const place = random.pick(world.batches.map((batch) => batch.place).concat(''));
  const own = world.batches.filter(({ lot, place: at }) => lot.product === product && at === place);
  if (own.some(({ from, count }) => from > world.day + 1 && count > 0)) return [];
  const glaze = product.variants.length > 0 ? random.pick(product.variants) : undefined;
  const counted = own.filter((batch) => batch.grade === grade && carries(batch, glaze));
  const total = counted.reduce((sum, { count }) => sum + count, 0);
  const short = product.named || total === 0 || random.chance(0.5) ? 0 : random.int(1, total);
  shorten(counted, short);
  const more = short === 0 && has(world, 'pieces-found') ? found(world, counted, random) : 0;
  return [
    {
      product: product.id,
      glaze,
      grade,
      place: place === '' ? undefined : place,
      count: total - short + more,
      why: short > 0 && random.chance(0.5) ? 'broken on the shelf' : undefined,
    },
  ];
}

/** Some more than the book has of ware whose lines name no lot; they are for sale from the next day on. */
function found(world: World, counted: readonly Batch[], random: RandomSource): number {
  const sample = counted.find(({ count }) => count > 0);
  if (!sample || sample.lot.product.named || random.chance(0.5)) return 0;
  const count = random.int(1, 3);
  world.batches.push({ ...sample, count, from: world.day + 1, fresh: false });
  return count;
}

function carries({ lot }: Batch, glaze: string | undefined): boolean {
  return glaze === undefined || lot.glazes.some(({ recipe }) => recipe === glaze);
}

function shorten(batches: readonly Batch[], by: number): void {
  let left = by;
  for (const batch of batches) {
    const count = Math.min(left, batch.count);
    batch.count -= count;
    left -= count;
  }
}

const CATEGORIES = ['utilities', 'booth', 'car', 'office', 'tools', 'repairs', 'glaze-books'];

/** Money spent on something else than materials. */
export function spend(world: World): void {
  const random = sourceOf(world, 'spend');
  if (!has(world, 'spent') || !random.chance(0.12)) return;
  const category = random.pick(CATEGORIES);
  const kiln = random.pick(world.definitions.kilns).id;
  write(world, 'spent', {
    id: newId(world, 'x'),
    fields: {
      date: world.date,
      to: { text: random.pick(['Town Power', 'Valley Garage', '24']) },
      for: category,
      amount: money(world, random.int(1, 30_000) / 100),
      channel: category === 'booth' ? 'market' : undefined,
      fair: fairOf(world, random),
      kiln: category === 'repairs' ? kiln : undefined,
      distance: category === 'car' ? random.pick(['84 km', '52.5 mi']) : undefined,
      paid: random.chance(0.1) ? 'no' : undefined,
    },
  });
}

/** A test of what there is already. */
export function test(world: World): void {
  const random = sourceOf(world, 'test');
  if (!has(world, 'tests') || !random.chance(0.08)) return;
  const kind = random.pick(['tile', 'leach', 'oven', 'dishwasher', 'crazing']);
  const pickId = (records: Record<string, unknown> | undefined): string | undefined => {
    const ids = Object.keys(records ?? {});
    return ids.length > 0 && random.chance(0.5) ? random.pick(ids) : undefined;
  };
  const recipe = random.pick(world.definitions.recipes).id;
  const mixes = world.mixes.get(recipe) ?? [];
  write(world, 'tests', {
    id: newId(world, 't'),
    fields: {
      date: world.date,
      kind,
      recipe,
      mix: mixes.length > 0 && random.chance(0.5) ? random.pick(mixes) : undefined,
      lot: pickId(world.records['pieces']),
      firing: pickId(world.records['firings']),
      change: kind === 'tile' ? { text: '+2% rutile' } : undefined,
      result: { text: random.pick(['good', 'crazed: lines', '0']) },
      leach:
        kind === 'leach'
          ? { method: 'ASTM C738', lead: { text: '0.02' }, cadmium: { text: '<0.01' } }
          : undefined,
    },
  });
}

/** A quarter that is over, as it was filed; the line that is filed is one that no amount goes to. */
export function file(world: World): void {
  const random = sourceOf(world, 'file');
  if (!has(world, 'filed') || !random.chance(0.03)) return;
  const starts = world.definitions.settings['year-starts'];
  const yearStarts = starts === undefined ? undefined : (starts as { text: string }).text;
  const period = quarterOn(addDays(world.date, -random.int(95, 130)), yearStarts)?.name;
  const id = newId(world, 'd');
  const others = Object.values(world.records['filed'] ?? {});
  if (others.some(({ date }) => date === world.date)) return;
  write(world, 'filed', {
    id,
    fields: {
      date: world.date,
      period,
      sheet: 'us-schedule-c-2025',
      lines: { depreciation: { text: '0' } },
    },
  });
}
