/** What a random studio takes ahead of what it is for, and the fairs that it stands at. */
import type { RandomSource } from '../random-source.js';
import { dateOf, has, money, newId, sourceOf, write, type Fields, type World } from './world.ts';

/** A fair that begins today, now and then. */
export function holdFair(world: World): void {
  const random = sourceOf(world, 'fair');
  if (!has(world, 'fairs') || !random.chance(0.06)) return;
  const id = newId(world, 'k');
  const last = world.day + random.int(0, 2);
  write(world, 'fairs', {
    id,
    fields: {
      date: world.date,
      last: last > world.day && last < world.plan.days ? dateOf(last) : undefined,
      name: { text: random.pick(['Spring fair', '2025', 'On the green: again']) },
      channel: 'market',
      hours: random.chance(0.7) ? random.pick(['7.5', '16', 0]) : undefined,
      place: random.chance(0.3) ? 'the green' : undefined,
    },
  });
  world.fairs.push(id);
}

/** The id of one of the fairs so far, or none. */
export function fairOf(world: World, random: RandomSource): string | undefined {
  return world.fairs.length > 0 && random.chance(0.3) ? random.pick(world.fairs) : undefined;
}

/** A deposit or a certificate, and now and then money back of an earlier one. */
export function takeAdvance(world: World): void {
  const random = sourceOf(world, 'advance');
  if (!has(world, 'advances')) return;
  if (random.chance(0.05)) giveBack(world, random);
  if (!random.chance(0.08)) return;
  const id = newId(world, 'a');
  const amount = random.int(5, 150);
  const isDeposit = random.chance(0.5);
  const fields: Fields = {
    date: world.date,
    for: isDeposit ? 'deposit' : 'certificate',
    amount: money(world, amount),
    channel: random.chance(0.7) ? random.pick(['studio-door', 'web-shop', 'market']) : undefined,
    buyer: random.chance(0.5) ? { text: random.pick(['C. Example', '007']) } : undefined,
    number: isDeposit ? undefined : { text: String(random.int(0, 999)).padStart(4, '0') },
    order: isDeposit ? { text: 'a tea set: six cups' } : undefined,
    fee: random.chance(0.2) ? money(world, 1.25) : undefined,
  };
  write(world, 'advances', { id, fields });
  world.advances.push({ id, fields, left: amount });
}

function giveBack(world: World, random: RandomSource): void {
  const open = world.advances.filter(({ left }) => left > 0);
  if (open.length === 0) return;
  const advance = random.pick(open);
  const back = random.int(1, advance.left);
  advance.left -= back;
  const known = (advance.fields['refunded'] ?? []) as readonly Fields[];
  advance.fields['refunded'] = [
    ...known.map((each) => ({ ...each })),
    { date: world.date, amount: money(world, back) },
  ] as Fields['refunded'];
}

/** What a sale of goods of that worth uses of an open advance: little enough to be charged at all. */
export function useAdvance(
  world: World,
  goods: number,
  random: RandomSource,
): Fields['advances'] | undefined {
  const open = world.advances.filter(({ left }) => left > 0);
  const most = Math.floor(goods * 0.15);
  if (open.length === 0 || goods < 20 || !random.chance(0.4)) return undefined;
  const advance = random.pick(open);
  const amount = Math.min(advance.left, random.int(1, most));
  advance.left -= amount;
  return [{ advance: advance.id, amount: money(world, amount) }];
}
