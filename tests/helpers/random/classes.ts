/** Classes of random studios. */
import type { TreeMap } from '../yaml-tree.ts';
import { FIRST_DAY } from './first-day.ts';

/** The days of a class that does not meet every week, the last of them not in its turn. */
export const MEETS: Readonly<Record<string, readonly string[]>> = {
  'hand-building': [
    FIRST_DAY,
    '2025-10-02',
    '2025-11-30',
    '2025-12-24',
    '2026-02-11',
    '2025-10-30',
  ],
};

/** A class with a meeting for each of its fee's parts. */
export function classRecord(id: string, minorDigits: number): TreeMap {
  return {
    name: id.replaceAll('-', ' '),
    starts: FIRST_DAY,
    sessions: 6,
    hours: '2.5',
    places: 900,
    fee: minorDigits === 0 ? '14500' : '145.5',
    clay: { material: 'stoneware', each: '5 kg' },
    'firing-included': 'yes',
  };
}
