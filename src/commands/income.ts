/** `saggar income`: what a year earned by product, channel, month, class or buyer. */
import { showReport } from './show.ts';
import type { Command } from './world.ts';

/** Shows the income of the business year, or of the days that are asked for. */
export const income: Command = (asked, world) =>
  showReport(asked, world, async () => (await import('./tables/income.ts')).income);
