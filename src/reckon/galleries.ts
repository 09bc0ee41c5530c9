/** Goods on consignment: sent to a gallery, fetched back, or missing there; stock until they are sold. */
import type { Consigned, ConsignedLine } from '../book.ts';
import { moveFinished, takeFinished, type Moved, type Selection } from './finished.ts';
import { noteOpenGlaze } from './open-glaze.ts';
import { pieceShortfall } from './piece-shortfall.ts';
import { STUDIO_PLACE, noteWare, type Ware } from './ware.ts';

type Listing = 'sent' | 'back' | 'missing';

interface ListedLine {
  readonly consigned: Consigned;
  readonly listing: Listing;
  readonly index: number;
  readonly line: ConsignedLine;
}

/** Books one delivery note: what was sent, then what came back, then what is missing. */
export function consign(ware: Ware, consigned: Consigned): void {
  for (const listing of ['sent', 'back', 'missing'] as const) {
    (consigned[listing] ?? []).forEach((line, index) => {
      consignLine(ware, { consigned, listing, index, line });
    });
  }
}

function consignLine(ware: Ware, listed: ListedLine): void {
  const { line, consigned, listing, index } = listed;
  const gallery = consigned.channel;
  const place = listing === 'sent' ? STUDIO_PLACE : gallery;
  const { product, lot, glaze, grade = 'first' } = line;
  const selection = { product, lot, glaze, grade, place };
  const from =
    listing === 'missing'
      ? loseThere(ware, listed, selection)
      : moveFinished(
          ware,
          { ...selection, to: listing === 'sent' ? gallery : STUDIO_PLACE },
          line.count,
        );
  const at = { file: consigned.file, path: [consigned.id, listing, index] };
  noteOpenGlaze(ware, selection, { day: consigned.date, at, from });
  const had = from.reduce((all, { count }) => all + count, 0);
  if (had < line.count) reportShort(ware, listed, had);
}

function loseThere(
  ware: Ware,
  { consigned, line }: ListedLine,
  selection: Selection,
): readonly Moved[] {
  const { id, date } = consigned;
  const { from } = takeFinished(ware, selection, line.count);
  for (const { lot, count, cost } of from)
    noteWare(ware, { day: date, reason: 'lost', by: id, lot: lot.lot.id, count, cost });
  return from;
}

function reportShort(ware: Ware, listed: ListedLine, had: number): void {
  const { consigned, listing, index, line } = listed;
  const at = { file: consigned.file, path: [consigned.id, listing, index, 'count'] };
  const place = listing === 'sent' ? 'in the studio' : `at ${consigned.channel}`;
  const because = `${had} of ${line.product} ${place}, ${line.count} ${listing}`;
  const where = { day: consigned.date, at, what: line.product };
  const kind = listing === 'sent' ? 'finished' : 'consigned';
  ware.shortfalls.push(pieceShortfall(kind, where, { wanted: line.count, had, because }));
}
