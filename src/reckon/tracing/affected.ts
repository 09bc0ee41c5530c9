/** How many pieces of each lot have what is traced, and from which stage on. */
import type { Book, Firing, Lot } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { byDate } from '../../text-order.ts';
import { firingsOf } from '../ware/stages.ts';
import type { ReachedBy } from './reach.ts';
import { lotFirings, type MaterialUse } from './uses.ts';
import type { Bounds } from './whereabouts.ts';

/** Pieces of one lot that have it: at least and at the most. */
export interface Affected extends Bounds {
  /** How many firings a piece has had, at the least, once it has it. */
  readonly stage: number;
}

/** Lot → its affected pieces. */
export type AffectedLots = ReadonlyMap<string, Affected>;

/** All pieces of a lot. */
export function wholeLot({ made }: Lot): Affected {
  return { least: made, most: made, stage: 0 };
}

/** All pieces of a lot, each of which may have it or not. */
export function anyOfLot({ made }: Lot): Affected {
  return { least: 0, most: made, stage: 0 };
}

/** What uses of material and glaze come to, lot by lot: a firing's supplies were with all that it held. */
export function affectedBy(book: Book, uses: ReadonlyMap<MaterialUse, ReachedBy>): AffectedLots {
  const found = new Map<string, Affected>();
  for (const [{ what, by, pieces, stage }, { certainty }] of uses) {
    const lot = book.pieces.get(by);
    const least = certainty === 'recorded' ? pieces : 0;
    if (lot) addAffected(found, lot, { least, most: pieces, stage });
    const firing = what === 'supplies' ? book.firings.get(by) : undefined;
    for (const [id, each] of firing ? affectedByFiring(book, firing) : [])
      addAffected(
        found,
        book.pieces.get(id),
        certainty === 'recorded' ? each : { ...each, least: 0 },
      );
  }
  return found;
}

/** The pieces that were in a firing. */
export function affectedByFiring(book: Book, firing: Firing): AffectedLots {
  const found = new Map<string, Affected>();
  for (const { lot: id, in: count, refire } of firing.load) {
    const lot = book.pieces.get(id ?? '');
    if (!lot) continue;
    const fired = firingsOf(inForce(book.products.get(lot.product), lot.date));
    const at = refire === 'yes' ? fired.length - 1 : fired.indexOf(firing.kind);
    addAffected(found, lot, { least: count, most: count, stage: Math.max(0, at) + 1 });
  }
  return found;
}

/** Ways by which a lot came by it may be of the same pieces, or of others. */
function addAffected(found: Map<string, Affected>, lot: Lot | undefined, one: Affected): void {
  if (!lot || one.most === 0) return;
  const known = found.get(lot.id);
  found.set(lot.id, {
    least: Math.max(known?.least ?? 0, one.least),
    most: Math.min(lot.made, (known?.most ?? 0) + one.most),
    stage: Math.min(known?.stage ?? one.stage, one.stage),
  });
}

/** Of pieces of a lot, those that are affected: the others may all be among them, or none. */
export function affectedIn({ made }: Lot, affected: Affected, { least, most }: Bounds): Bounds {
  return {
    least: Math.max(0, least - (made - affected.least)),
    most: Math.min(most, affected.most),
  };
}

/** Firings that lots were in. */
export function firingsOfLots(book: Book, lots: Iterable<string>): readonly Firing[] {
  const all = [...lots].flatMap((lot) => lotFirings(book).get(lot) ?? []);
  return [...new Set(all.map(({ firing }) => firing))].sort(byDate);
}
