/** Goods on consignment: sent to a gallery, fetched back, or missing there; stock until they are sold. */
import type { Consigned, ConsignedLine } from '../book.ts';
import { moveFinished, takeFinished, type Selection } from './finished.ts';
import { STUDIO_PLACE, noteWare, pieceShortfall, type Ware } from './ware.ts';

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
  const { line, consigned, listing } = listed;
  const gallery = consigned.channel;
  const from = listing === 'sent' ? STUDIO_PLACE : gallery;
  const { product, lot, glaze, grade = 'first' } = line;
  const selection = { product, lot, glaze, grade, place: from };
  const had =
    listing === 'missing'
      ? loseThere(ware, listed, selection)
      : moveFinished(
          ware,
          { ...selection, to: listing === 'sent' ? gallery : STUDIO_PLACE },
          line.count,
        );
  if (had < line.count) reportShort(ware, listed, had);
}

function loseThere(ware: Ware, { consigned, line }: ListedLine, selection: Selection): number {
  const { id, date } = consigned;
  const taken = takeFinished(ware, selection, line.count);
  for (const { lot, count, cost } of taken.from)
    noteWare(ware, { day: date, reason: 'lost', by: id, lot: lot.lot.id, count, cost });
  return taken.count;
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
