/** What a random studio earns with other things than ware: classes, and what it gives back of them. */
import type { RandomSource } from '../random-source.js';
import { has, money, type Fields, type World } from './world.ts';

/** A line of a sale, with about what it is worth. */
export interface SaleLine {
  readonly line: Fields;
  /** What is sold, in whole money, about. */
  readonly worth: number;
  /** What comes back, in whole money, about. */
  readonly back: number;
}

/** A price in whole money, as amounts are reckoned here. */
export function worthOf({ definitions }: World, price: string): number {
  return definitions.minorDigits === 0 ? Number(price) / 100 : Number(price);
}

/** Now and then a class, a refund of one, or something else. */
export function otherIncome(world: World, random: RandomSource): SaleLine[] {
  const { classes } = world.definitions;
  if (has(world, 'class-refunds') && world.enrolled.length > 0 && random.chance(0.06))
    return refund(world, random);
  const line = (what: Fields, price: string): SaleLine[] => [
    { line: { ...what, count: 1, price }, worth: worthOf(world, price), back: 0 },
  ];
  if (classes.length > 0 && random.chance(0.15)) {
    const taught = random.pick(classes);
    const price = money(world, has(world, 'odd-money') ? random.pick([145.5, 100.01, 97]) : 145.5);
    world.enrolled.push({ class: taught, price });
    return line({ class: taught }, price);
  }
  if (!has(world, 'other-income') || !random.chance(0.1)) return [];
  const words = random.pick(['kiln rental', 'a talk: glazes', '1984']);
  return line({ for: { text: words } }, money(world, 30));
}

/** The fee of a class is paid back, whole or in part. */
function refund(world: World, random: RandomSource): SaleLine[] {
  const at = random.int(0, world.enrolled.length - 1);
  const [{ class: taught, price }] = world.enrolled.splice(at, 1) as [World['enrolled'][number]];
  const line = { class: taught, count: 1, price, returned: 'yes' };
  return [{ line, worth: 0, back: worthOf(world, price) }];
}
