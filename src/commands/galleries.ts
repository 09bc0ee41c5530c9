/** `saggar galleries`: goods on consignment. */
import { showReport } from './show.ts';
import type { Command } from './world.ts';

/** Shows how every gallery stands, or with an id one gallery delivery by delivery. */
export const galleries: Command = (asked, world) =>
  showReport(asked, world, async () => (await import('./tables/galleries.ts')).galleries);
