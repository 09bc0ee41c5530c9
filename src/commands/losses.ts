/** `saggar losses`: loss rates, or each firing beside its limits. */
import { showReport } from './show.ts';
import type { Command } from './world.ts';

/** Shows loss rates by what is asked for, or with `--chart` which firings are out of line. */
export const losses: Command = (asked, world) =>
  showReport(asked, world, async () => (await import('./tables/losses.ts')).losses);
