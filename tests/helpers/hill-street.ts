/** A small studio of a few days in March, small enough to reckon by hand. */
import { day } from '../../src/commands/reports/day.ts';
import { run, type Said } from './command-world.ts';

/** Path from the studio's root → text. */
export const HILL_STREET: Readonly<Record<string, string>> = {
  'studio.yaml': 'format: 1\nname: Hill Street\ncurrency: EUR\n',
  'materials.yaml': `
clay: { name: White clay, kind: clay, unit: kg, reorder-at: 20 kg, lead-days: 7 }
sand: { name: Sand, kind: dry, unit: kg }
`,
  'products.yaml': `
mug: { name: Mug, clay: { material: clay, each: 500 g }, price: 30, second: 20 }
bowl: { name: Bowl, clay: { material: clay, each: 1 kg }, price: 45, second: 30, space: 2 }
`,
  'kilns.yaml': 'kiln: { name: Kiln, fuel: electricity, space: 30 }\n',
  'tariffs.yaml': 'power: { from: 2026-01-01, fuel: electricity, price: 0.3, per: kWh }\n',
  'channels.yaml': `
door: { name: Studio door, kind: direct }
shop: { name: Kitchen shop, kind: wholesale }
gallery: { name: Gallery Nord, kind: consignment, commission: 40% }
`,
  'bought.yaml': `
b1: { date: 2026-03-01, supplier: Clay Co, paid: no, lines: [{ material: clay, quantity: 35 kg, cost: 40 }] }
b2: { date: 2026-03-01, supplier: Clay Co, lines: [{ material: sand, quantity: 5 kg, cost: 4 }] }
`,
  'pieces.yaml': `
p1: { date: 2026-03-01, product: mug, made: 20 }
p2: { date: 2026-03-10, product: bowl, made: 8 }
p3: { date: 2026-03-12, product: mug, made: 10 }
`,
  'firings.yaml': `
f1: { date: 2026-03-08, kiln: kiln, kind: bisque, energy: 40 kWh, load: [{ lot: p1, in: 20, first: 19, lost: 1 }] }
f2: { date: 2026-03-11, kiln: kiln, kind: glaze, energy: 50 kWh, load: [{ lot: p1, in: 15, first: 12, second: 3 }] }
`,
  'consigned.yaml':
    'g1: { date: 2026-03-12, channel: gallery, sent: [{ product: mug, count: 4, price: 35 }] }\n',
  'sales.yaml': `
s1: { date: 2026-03-12, channel: door, lines: [{ product: mug, grade: second, count: 1, price: 20 }] }
s2: { date: 2026-03-12, channel: shop, paid: no, lines: [{ product: mug, count: 2, price: 15 }] }
s3: { date: 2026-03-13, channel: gallery, paid: 2026-04-10, lines: [{ product: mug, count: 1, price: 35 }] }
`,
};

/** Runs `day` in a folder, as it is typed on 1 May. */
export async function dayIn(
  folder: string,
  asOf: string,
  options: Readonly<Record<string, string | boolean>> = {},
): Promise<Said> {
  return run(day, folder, { options: { asOf, ...options } });
}
