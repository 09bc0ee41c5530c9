/** A studio in which costs are easily worked out by hand. */
import { bookFrom, type Files } from '../helpers/book.ts';
import { COMPONENTS, type Cost } from './costs.ts';
import { reckonAgain } from './reckon-again.ts';
import type { SecondReckoning } from './result.ts';

const LAST = '2026-12-31';
const SETTINGS = 'format: 1\nname: S\ncurrency: USD\nlabour-rate: 20\n';

/** A studio where a cup takes a pound of clay at .10. */
export function again(files: Files, day = LAST): SecondReckoning {
  const book = bookFrom({
    studio: SETTINGS,
    materials: `
clay: { name: Clay, kind: clay, unit: lb }
frit: { name: Frit, kind: dry, unit: g }
cones: { name: Cones, kind: cone, unit: each }
wash: { name: Wash, kind: other, unit: each }
gas: { name: Gas, kind: fuel, unit: L }
box: { name: Box, kind: packing, unit: each }
`,
    bought: `
b1:
  date: 2026-01-01
  supplier: S
  lines:
    - { material: clay, quantity: 1000 lb, cost: 100.00 }
    - { material: frit, quantity: 1000 g, cost: 1.00 }
    - { material: cones, quantity: 3, cost: 1.00 }
    - { material: wash, quantity: 10, cost: 1.00 }
    - { material: gas, quantity: 10 L, cost: 10.00 }
    - { material: box, quantity: 10, cost: 0.25 }
`,
    recipes:
      'clear: { name: Clear, kind: glaze, versions: [{ from: 2026-01-01, base: [{ material: frit, parts: 1 }] }] }',
    mixed: 'm1: { date: 2026-01-01, recipe: clear, base-weight: 1000 g }',
    products: `
cup: { name: Cup, clay: { material: clay, each: 1 lb }, minutes: 7, fired: [once], packing: [{ material: box, each: 1 }] }
jug: { name: Jug, clay: { material: clay, each: 2 lb }, space: 2.5, glazes: [{ recipe: clear, each: 3 g }] }
`,
    kilns: 'kiln: { name: Kiln, fuel: electricity }',
    classes: 'evening: { name: Evening, starts: 2026-01-05 }',
    channels:
      'door: { name: Door, kind: direct }\nnook: { name: Nook, kind: consignment }\nattic: { name: Attic, kind: consignment }',
    pieces: 'p1: { date: 2026-01-02, product: cup, made: 7 }',
    ...files,
  });
  return reckonAgain(book, day);
}

/** The components that aren't zero. */
export function some(cost: Cost | undefined): Partial<Record<string, number>> {
  const parts = COMPONENTS.map((one) => [one, Number(cost?.[one] ?? 0n)] as const);
  return Object.fromEntries(parts.filter(([, value]) => value !== 0));
}

export function firing(id: string, day: string, rest: string): string {
  return `${id}: { date: 2026-${day}, kiln: kiln, ${rest} }\n`;
}

/** A firing in which cups are finished. */
export function once(id: string, day: string, load: string): string {
  return firing(id, day, `kind: once, load: [${load}]`);
}
