/** Goods on consignment: sent to a gallery, fetched back, or missing there; stock until they are sold. */
import type { Consigned, ConsignedLine } from '../../book.ts';
import { moveFinished, takeFinished, type Moved } from './finished.ts';
import { STUDIO_PLACE } from './lot.ts';
import { noteOpenGlaze } from './open-glaze.ts';
import { thereInstead } from './there-instead.ts';
import { noteShort, noteWare, type Selection, type Ware } from './ware.ts';
import { countIn } from '../../grouping.ts';

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
  const to = { sent: gallery, back: STUDIO_PLACE, missing: undefined }[listing];
  const from =
    to === undefined
      ? loseThere(ware, listed, selection)
      : moveFinished(ware, { ...selection, to }, line.count);
  const at = { file: consigned.file, path: [consigned.id, listing, index] };
  noteOpenGlaze(ware, selection, { day: consigned.date, at, from });
  const had = countIn(from);
  if (had >= line.count) return;
  noteShort(ware, {
    kind: listing === 'sent' ? 'finished' : 'consigned',
    day: consigned.date,
    at: { file: consigned.file, path: [consigned.id, listing, index, 'count'] },
    what: product,
    wanted: line.count,
    had,
    meant: selection,
    instead: thereInstead(ware, selection).filter((other) => other.place !== to),
  });
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
