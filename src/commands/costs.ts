/** `saggar costs`: what one good piece costs, and what it must be sold for. */
import { showReport } from './show.ts';
import type { Command } from './world.ts';

/** Shows what a piece of each product costs, or with an id one product's cost taken apart. */
export const costs: Command = (asked, world) =>
  showReport(asked, world, async () => (await import('./tables/costs.ts')).costs);
