/** What is ordered from a random studio, and which sales deliver it. */
import { has, money, newId, sourceOf, write, type Fields, type World } from './world.ts';

/** Takes an order now and then, and closes one of the others. */
export function takeOrder(world: World): void {
  if (!has(world, 'orders')) return;
  const random = sourceOf(world, 'order');
  if (random.chance(0.05)) closeOrder(world);
  if (!random.chance(0.1)) return;
  const id = newId(world, 'o');
  const { id: product } = random.pick(world.definitions.products);
  const left = random.int(1, 12);
  const price = random.chance(0.7) ? money(world, random.int(5, 60)) : undefined;
  const inWords = {
    for: 'a platter: blue',
    count: 1,
    note: random.chance(0.5) ? 'on the foot' : undefined,
  };
  const fields: Fields = {
    date: world.date,
    buyer: { text: random.pick(['C. Example', '007']) },
    channel: random.chance(0.3) ? 'studio-door' : undefined,
    lines: [{ product, count: left, price }, ...(random.chance(0.3) ? [inWords] : [])],
  };
  write(world, 'orders', { id, fields });
  world.orders.push({ id, product, fields, left });
}

function closeOrder(world: World): void {
  const random = sourceOf(world, 'close order');
  if (world.orders.length === 0) return;
  const at = random.int(0, world.orders.length - 1);
  const [order] = world.orders.splice(at, 1);
  if (order) order.fields[random.pick(['done', 'cancelled'])] = world.date;
}

/** The order that so many pieces of a product deliver, or none. */
export function orderFor(world: World, product: string, count: number): string | undefined {
  const order = world.orders.find((each) => each.product === product && each.left >= count);
  if (order === undefined) return undefined;
  order.left -= count;
  return order.id;
}
