/** Which table `saggar pieces` shows: what stands, by product or by place. */
import { PIECES_GROUPS } from '../../groups.ts';
import { flow } from '../../reckon/flow.ts';
import { piecesTable } from '../../report/pieces.ts';
import { unknownWord } from '../ids.ts';
import { textOption } from '../world.ts';
import type { MakeTable } from '../show.ts';

/** Shows all pieces that stand somewhere, by product or by place. */
export const pieces: MakeTable = ({ book, asOf }, asked) => {
  const word = textOption(asked, 'by') ?? 'product';
  const by = PIECES_GROUPS.find((group) => group === word);
  return by ? piecesTable(book, flow(book, asOf), by) : unknownWord('--by', word, PIECES_GROUPS);
};
