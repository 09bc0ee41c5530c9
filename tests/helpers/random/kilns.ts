/** The kilns and tariffs of a random studio. */
import type { TreeMap } from '../yaml-tree.ts';
import type { Feature } from './plan.ts';

export interface KilnFacts {
  readonly id: string;
  readonly fuel: string;
  readonly space: number;
  /** How its firings tell their energy. */
  readonly energy: 'estimated' | 'stated' | 'meter' | 'gas' | 'stock';
  /** Only in studios with this feature. */
  readonly needs?: Feature;
}

export const KILN_FACTS: readonly KilnFacts[] = [
  { id: 'old-electric', fuel: 'electricity', space: 40, energy: 'estimated' },
  { id: 'top-loader', fuel: 'electricity', space: 30, energy: 'stated' },
  { id: 'front-loader', fuel: 'electricity', space: 60, energy: 'meter', needs: 'meter' },
  { id: 'gas-kiln', fuel: 'natural-gas', space: 50, energy: 'gas', needs: 'gas' },
  { id: 'bottle-kiln', fuel: 'propane', space: 45, energy: 'stock', needs: 'fuel-from-stock' },
];

const DUTY = {
  bisque: '50%',
  glaze: '65%',
  once: '62.5%',
  lustre: '40%',
  raku: '70%',
  test: '55%',
};

/** A kiln as it stands in the book. */
export function kilnRecord(
  { id, fuel, space, energy }: KilnFacts,
  { has, minorDigits }: { has: (feature: Feature) => boolean; minorDigits: number },
): TreeMap {
  return {
    name: id.replaceAll('-', ' '),
    fuel,
    power: energy === 'estimated' ? '11.52 kW' : undefined,
    space,
    duty: energy === 'estimated' ? DUTY : undefined,
    'heat-content': energy === 'gas' ? '10.8 kWh/m3-gas' : undefined,
    wear: has('wear') ? wear(minorDigits) : undefined,
  };
}

function wear(minorDigits: number): TreeMap[] {
  const cost = minorDigits === 0 ? '18000' : '180.5';
  return [
    { part: 'shelves', cost, firings: 70 },
    { part: 'elements', cost, firings: 120, fitted: '2025-01-10', replaced: '2025-11-03' },
    { part: 'elements', cost, firings: 120, fitted: '2025-11-03' },
  ];
}

/** Prices of what the kilns burn, with a rise on the way. */
export function tariffRecords(has: (feature: Feature) => boolean): Record<string, TreeMap> {
  const bands = has('bands')
    ? [
        { hours: '16:00-21:00', days: ['mon', 'tue', 'wed', 'thu', 'fri'], price: '0.387' },
        { hours: '22:30-06:00', price: '0.1419' },
      ]
    : undefined;
  const gas = {
    'town-gas': { from: '2025-01-01', fuel: 'natural-gas', price: '1.1375', per: 'therm' },
  };
  return {
    'town-power': { from: '2025-01-01', fuel: 'electricity', price: '0.21', per: 'kWh', bands },
    'town-power-2': { from: '2025-12-01', fuel: 'electricity', price: '0.23456789', per: 'kWh' },
    ...(has('gas') ? gas : {}),
  };
}
