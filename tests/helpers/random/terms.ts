/** What the sales of random studios say beside their lines: buyers, payment, taxes, fees and cards. */
import type { RandomSource } from '../random-source.js';
import type { Tree } from '../yaml-tree.ts';
import type { ChannelFacts } from './definitions.ts';
import { dateOf, has, money, sourceOf, type Fields, type World } from './world.ts';

/** Who bought it, when it was paid, and what the channel took. */
export function terms(
  world: World,
  { id, kind }: ChannelFacts,
  { goods, random }: { goods: number; random: RandomSource },
): Fields {
  const paid = world.day + random.int(0, 30);
  const late: Tree = paid < world.plan.days && random.chance(0.8) ? dateOf(paid) : 'no';
  const share = (part: number): string => money(world, goods * part);
  return {
    buyer: random.chance(0.3) ? { text: random.pick(['C. Example', 'Shop 12', '007']) } : undefined,
    paid: random.chance(0.3) ? late : undefined,
    statement:
      kind === 'consignment' ? { text: String(random.int(0, 999)).padStart(4, '0') } : undefined,
    shipping: kind === 'online' && random.chance(0.6) ? money(world, 8.5) : undefined,
    tax: random.chance(0.3) ? share(0.07) : undefined,
    'tax-place': random.chance(0.2) ? 'county' : undefined,
    fee: kind === 'online' && random.chance(0.5) ? share(0.03) : undefined,
    commission: id === 'harbour-gallery' && random.chance(0.5) ? share(0.4) : undefined,
  };
}

/** What is given back beside the price of what came back. */
export function givenBack(world: World, { id }: ChannelFacts, random: RandomSource): Fields {
  if (!has(world, 'given-back')) return {};
  const some = (most: number): string | undefined =>
    random.chance(0.4) ? `-${money(world, random.int(1, most))}` : undefined;
  // The other gallery's share was agreed.
  const commission = id === 'north-gallery' ? undefined : some(5);
  return { tax: some(3), shipping: some(9), fee: some(2), commission };
}

/** Little enough of what is sold, or of what comes back, that no discount makes it too much. */
export function byCard(
  world: World,
  { kind }: ChannelFacts,
  { goods, back }: { goods: number; back: number },
): string | undefined {
  const random = sourceOf(world, 'card', world.sold.length);
  if (!has(world, 'terms') || kind === 'consignment' || !random.chance(0.4)) return undefined;
  const part = random.pick([0, 0.1, 0.3]);
  if (back > 0) return `${part > 0 ? '-' : ''}${money(world, back * part)}`;
  return money(world, goods > 20 ? goods * part : 0);
}
