/** `saggar fairs`: what fairs brought in. */
import { showReport } from './show.ts';
import type { Command } from './world.ts';

/** Shows every fair of a span of days, or with an id one fair line by line. */
export const fairs: Command = (asked, world) =>
  showReport(asked, world, async () => (await import('./tables/fairs.ts')).fairs);
