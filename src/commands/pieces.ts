/** `saggar pieces`: what stands at which stage, and finished ware by product, glaze, grade and place. */
import { PIECES_GROUPS } from '../groups.ts';
import { flow } from '../reckon/flow.ts';
import { piecesTable } from '../report/pieces.ts';
import { unknownWord } from './ids.ts';
import { showReport } from './show.ts';
import { textOption, type Command } from './world.ts';

/** Shows all pieces that stand somewhere, by product or by place. */
export const pieces: Command = (asked, world) =>
  showReport(asked, world, ({ book, asOf }) => {
    const word = textOption(asked, 'by') ?? 'product';
    const by = PIECES_GROUPS.find((group) => group === word);
    return by ? piecesTable(book, flow(book, asOf), by) : unknownWord('--by', word, PIECES_GROUPS);
  });
