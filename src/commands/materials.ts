/** `saggar materials`: what is on hand, one material's history, or where the material value is. */
import { showReport } from './show.ts';
import type { Command } from './world.ts';

/** Shows stock and depletion, or with an id the history of one, or with `--where` the value's places. */
export const materials: Command = (asked, world) =>
  showReport(asked, world, async () => (await import('./tables/materials.ts')).materials);
