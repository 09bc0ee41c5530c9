/** What a firing of a random studio takes: supplies, hours, and energy or fuel. */
import type { RandomSource } from '../random-source.js';
import type { Tree } from '../yaml-tree.ts';
import type { KilnFacts } from './kilns.ts';
import { draw } from './stocking.ts';
import { has, type Fields, type World } from './world.ts';

/** Cones and wash for a firing, now and then. */
export function supplies(world: World, random: RandomSource): Tree | undefined {
  if (!has(world, 'supplies') || !random.chance(0.7)) return undefined;
  const cones = random.int(1, 4);
  const wash = random.int(20, 300);
  draw(world, 'witness-cones', cones);
  if (random.chance(0.6)) return [{ material: 'witness-cones', quantity: cones }];
  draw(world, 'shelf-wash', wash);
  return [
    { material: 'witness-cones', quantity: cones },
    { material: 'shelf-wash', quantity: `${wash} g` },
  ];
}

/** Cone, hours and energy as this kiln tells them. */
export function heat(
  world: World,
  { kiln, cone, random }: { kiln: KilnFacts; cone: string; random: RandomSource },
): Fields {
  const hours = random.int(30, 130) / 10;
  const timed = kiln.energy === 'estimated' || random.chance(0.7);
  return {
    cone: random.chance(0.8) ? { text: cone } : undefined,
    'cone-seen': random.chance(0.3) ? { text: cone } : undefined,
    peak: random.chance(0.3) ? random.pick(['1222 °C', '2232 °F', '999.5 °C']) : undefined,
    hours: timed ? hours : undefined,
    started: timed && random.chance(0.8) ? random.pick(['06:30', '17:45', '23:00']) : undefined,
    ...energy(world, kiln, random),
  };
}

function energy(world: World, kiln: KilnFacts, random: RandomSource): Fields {
  const amount = random.int(100, 1200);
  const tenths = (value: number): string => (value / 10).toFixed(1);
  switch (kiln.energy) {
    case 'estimated':
      return {};
    case 'stated':
      return { energy: random.pick([`${tenths(amount)} kWh`, `${amount} MJ`]) };
    case 'meter': {
      const before = world.meters.get(kiln.id) ?? 104825;
      world.meters.set(kiln.id, before + amount);
      return { meter: { before: tenths(before), after: tenths(before + amount) } };
    }
    case 'gas':
      return {
        'fuel-used': random.pick([`${tenths(amount)} m3-gas`, `${tenths(amount)} kWh`, '2 ccf']),
      };
    case 'stock': {
      const litres = amount / 25;
      draw(world, 'propane', litres * 1000);
      return { 'fuel-used': { material: 'propane', quantity: `${litres} L` } };
    }
  }
}
