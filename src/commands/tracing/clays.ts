/** `saggar clays`: shrinkage and absorption by clay and cone, and throwing sizes. */
import { flow } from '../../reckon/flow.ts';
import { claysTable } from '../../report/claims/clays.ts';
import type { OptionsOf } from '../catalogue.ts';
import type { Report } from '../reports/show.ts';

/** What was measured of clays, and how large to throw what is to come out at a size. */
export const clays: Report<OptionsOf<'clays'>> = {
  table: ({ book, asOf }) => claysTable(book, flow(book, asOf).stock.asOf),
};
