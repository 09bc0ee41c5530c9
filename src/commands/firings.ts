/** `saggar firings`: what firings cost, or the load of one. */
import { showReport } from './show.ts';
import type { Command } from './world.ts';

/** Shows every firing's cost in a span of days, or with an id one firing's load. */
export const firings: Command = (asked, world) =>
  showReport(asked, world, async () => (await import('./tables/firings.ts')).firings);
