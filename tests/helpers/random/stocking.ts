/** How a random studio comes by materials, glazes and clay: whatever is needed is there in time. */
import type { RandomSource } from '../random-source.js';
import type { Tree } from '../yaml-tree.ts';
import { FACTORS, type MaterialFacts, type RecipeFacts, type VersionFacts } from './definitions.ts';
import {
  breaks,
  change,
  has,
  materialOf,
  money,
  newId,
  remember,
  sourceOf,
  write,
  type BasketLine,
  type Fields,
  type World,
} from './world.ts';

/** An amount as it is written, and what it is in grams, millilitres or pieces. */
interface Amount {
  readonly text: Tree;
  readonly base: number;
}

/** An amount of about so much, in one of the units. */
export function amountOf(random: RandomSource, about: number, units: readonly string[]): Amount {
  const unit = random.pick(units);
  const factor = FACTORS[unit] ?? 1;
  if (unit === 'each') return { text: Math.ceil(about), base: Math.ceil(about) };
  const number = Math.max(0.01, Number((about / factor).toPrecision(3)));
  return { text: `${number} ${unit}`, base: number * factor };
}

/** At least so much, in one or in several packs. */
function packed(random: RandomSource, least: number, units: readonly string[]): Amount {
  const unit = random.pick(units);
  const factor = FACTORS[unit] ?? 1;
  const whole = Math.ceil((least * 1.001) / factor) + random.int(0, 3);
  const packs = random.int(2, 4);
  if (unit === 'each') return { text: whole, base: whole };
  if (random.chance(0.7)) return { text: `${whole} ${unit}`, base: whole * factor };
  const inPack = Math.ceil(whole / packs);
  return { text: `${packs} x ${inPack} ${unit}`, base: packs * inPack * factor };
}

/**
 * Takes so much of a material out of stock, buying some today if there is not enough; a studio that
 * breaks the rule now and then forgets to.
 */
export function draw(world: World, material: string, amount: number): void {
  const random = sourceOf(world, 'draw', material, Math.round(amount));
  const there = world.stock.get(material) ?? 0;
  const enough = there >= amount * 1.000001 + 0.001;
  if (!enough && !breaks(world, 'stock', random)) buy(world, material, amount - there + 0.01);
  change(world.stock, material, -amount);
}

/** Puts a line on today's purchase. */
export function buy(world: World, material: string, least: number): void {
  const random = sourceOf(world, 'buy', material, Math.round(least));
  const facts = materialOf(world, material);
  const { text, base } = packed(random, least * random.int(1, 4), facts.units);
  const cost = (base / (FACTORS[facts.unit] ?? 1)) * facts.price * (0.8 + random.next() / 2);
  const bag = random.chance(0.2) ? `${random.int(0, 9)}${random.int(100, 999)}` : undefined;
  world.basket ??= { id: newId(world, 'b'), lines: [] };
  change(world.stock, material, base);
  remember(world.bags, material, bag ?? world.basket.id);
  world.basket.lines.push({
    material,
    quantity: text,
    cost: money(world, cost),
    lot: bag === undefined ? undefined : { text: bag },
  });
}

/** Writes today's purchase down, if there was one. */
export function closeBasket(world: World): void {
  const { basket, date } = world;
  if (basket === undefined) return;
  const random = sourceOf(world, 'basket');
  const { id, lines } = basket;
  const heavy = sourceOf(world, 'freight-weights');
  const weighed = lines.every(({ material }) => isWeighed(materialOf(world, material)));
  const byWeight = has(world, 'freight') && !weighed && heavy.chance(0.4);
  const least = Math.min(...lines.map(({ cost }) => Number(cost)));
  const fields: Fields = {
    date,
    supplier: random.pick(['Hill Clay Merchants', 'Tumbledown Store']),
    invoice: random.chance(0.5) ? { text: invoice(world, random) } : undefined,
    lines: byWeight ? lines.map((line) => withWeight(world, line, heavy)) : lines,
    ...(has(world, 'freight') && random.chance(0.6)
      ? { freight: money(world, random.int(1, 9000) / 100) }
      : {}),
    ...(byWeight || (has(world, 'freight') && weighed && random.chance(0.4))
      ? { 'share-freight-by': 'weight' }
      : {}),
    ...(has(world, 'purchase-discount') && random.chance(0.4)
      ? { discount: String(Math.floor(least / random.int(1, 9))) }
      : {}),
    ...(has(world, 'purchase-tax') && random.chance(0.4)
      ? { tax: money(world, random.int(1, 3000) / 100) }
      : {}),
    paid: has(world, 'terms') && random.chance(0.3) ? 'no' : undefined,
  };
  world.basket = undefined;
  write(world, 'bought', { id, fields });
}

/** A line that isn't bought by weight says what it weighs, and one that is may say more than that. */
function withWeight(world: World, line: BasketLine, random: RandomSource): BasketLine {
  const isNeeded = !isWeighed(materialOf(world, line.material));
  if (!isNeeded && !random.chance(0.2)) return line;
  return { ...line, weight: `${random.int(1, 400) / 10} ${random.pick(['kg', 'lb'])}` };
}

function isWeighed({ unit }: MaterialFacts): boolean {
  return ['g', 'kg', 'oz', 'lb'].includes(unit);
}

function invoice(world: World, random: RandomSource): string {
  for (;;) {
    const number = random.pick(['00', '1E', '', 'A-']) + String(random.int(10, 9999));
    if (world.invoices.has(number)) continue;
    world.invoices.add(number);
    return number;
  }
}

/** Clay that comes back from the throwing scraps. */
export function reclaim(world: World): void {
  const random = sourceOf(world, 'reclaim');
  if (!has(world, 'reclaimed') || !random.chance(0.06)) return;
  const material = random.pick(['stoneware', 'red-clay']);
  const { text, base } = amountOf(random, random.int(200, 9000), materialOf(world, material).units);
  change(world.stock, material, base);
  write(world, 'reclaimed', {
    id: newId(world, 'r'),
    fields: { date: world.date, material, quantity: text },
  });
}

/** The version in force today. */
function versionOf(world: World, recipe: RecipeFacts): VersionFacts {
  const begun = recipe.versions.filter(({ from }) => from <= world.date);
  const version = begun.at(-1);
  if (version === undefined) throw new Error(`no version of ${recipe.id}`);
  return version;
}

/** Takes so many grams of a mixed glaze or clay, mixing some today if there is not enough. */
export function drawMix(world: World, recipe: string, grams: number): void {
  const random = sourceOf(world, 'draw mix', recipe, Math.round(grams));
  const there = world.stock.get(recipe) ?? 0;
  const enough = there >= grams * 1.000001 + 0.001;
  if (!enough && !breaks(world, 'stock', random)) mix(world, recipe, grams - there + 1);
  change(world.stock, recipe, -grams);
}

/** Mixes at least so many grams of dry glaze or wet clay. */
export function mix(world: World, id: string, least: number): void {
  const recipe = world.definitions.recipes.find((one) => one.id === id);
  if (recipe === undefined) throw new Error(`no recipe ${id}`);
  const random = sourceOf(world, 'mix', id, Math.round(least));
  const { base, additions } = versionOf(world, recipe);
  const extra = additions.reduce((sum, [, percent]) => sum + percent / 100, 0);
  const units = has(world, 'mixed-units') ? ['g', 'kg', 'lb'] : ['g', 'kg'];
  const weight = amountOf(random, least * 1.02 * random.int(1, 4), units);
  const total = has(world, 'total-weight') && random.chance(0.4);
  const dryBase = total ? weight.base / (1 + extra) : weight.base;
  const parts = base.reduce((sum, [, part]) => sum + part, 0);
  for (const [material, part] of base) draw(world, material, (dryBase * part) / parts);
  for (const [material, percent] of additions) draw(world, material, (dryBase * percent) / 100);
  const yields = recipe.kind === 'clay' ? amountOf(random, weight.base * 1.2, units) : undefined;
  change(world.stock, id, yields?.base ?? dryBase * (1 + extra));
  writeMix(world, recipe, { weight, total, yields, version: { base, additions } });
}

function writeMix(
  world: World,
  recipe: RecipeFacts,
  made: {
    weight: Amount;
    total: boolean;
    yields: Amount | undefined;
    version: Pick<VersionFacts, 'base' | 'additions'>;
  },
): void {
  const id = newId(world, 'm');
  const random = sourceOf(world, 'mixed', id);
  const earlier = world.mixes.get(recipe.id) ?? [];
  const bags = made.version.base.slice(0, 2).flatMap(([material]) => {
    const known = world.bags.get(material) ?? [];
    return known.length === 0 ? [] : [[material, { text: random.pick(known) }] as const];
  });
  remember(world.mixes, recipe.id, id);
  write(world, 'mixed', {
    id,
    fields: {
      date: world.date,
      recipe: recipe.id,
      [made.total ? 'total-weight' : 'base-weight']: made.weight.text,
      water: random.chance(0.3) ? '3.5 L' : undefined,
      gravity: random.chance(0.3) ? '1.45' : undefined,
      'tops-up': earlier.length > 0 && random.chance(0.4) ? random.pick(earlier) : undefined,
      lots: bags.length > 0 && random.chance(0.5) ? Object.fromEntries(bags) : undefined,
      yields: made.yields?.text,
    },
  });
}
