/** `saggar pieces`: what stands at which stage, and finished ware by product, glaze, grade and place. */
import { showReport } from './show.ts';
import type { Command } from './world.ts';

/** Shows all pieces that stand somewhere, by product or by place. */
export const pieces: Command = (asked, world) =>
  showReport(asked, world, async () => (await import('./tables/pieces.ts')).pieces);
