/** `saggar pieces`: what stands, by product or by place. */
import { flow } from '../../reckon/flow.ts';
import { pieceCharts, placeCharts } from '../../report/charts/ware.ts';
import { piecesTable } from '../../report/pieces.ts';
import type { OptionsOf } from '../catalogue.ts';
import type { Report } from './show.ts';

/** All pieces that stand somewhere. */
export const pieces: Report<OptionsOf<'pieces'>> = {
  table: ({ book, asOf }, { options }) =>
    piecesTable(book, flow(book, asOf), options.by ?? 'product'),
  charts: (_, { options }, table) =>
    options.by === 'place' ? placeCharts(table) : pieceCharts(table),
};
