/** Opening stock and ware: what was there when the book began comes in at what it had cost. */
import type { Counted, CountedWare, Lot } from '../../book.ts';
import { booked } from '../booked.ts';
import { NO_COST, joined } from '../costs/cost.ts';
import { openFinished } from '../ware/finished.ts';
import { STUDIO_PLACE, type LotState } from '../ware/lot.ts';
import { isOpening } from './opening.ts';
import { stageOf } from '../ware/stages.ts';
import { foundLot } from '../ware/selling.ts';
import { openPool, type Store, drawOf } from './stock.ts';
import { noteShort, noteWare, startLot, type Ware } from '../ware/ware.ts';

/** Names a lot that was made before the book began: nothing of it is there until it is counted. */
export function nameLot(ware: Ware, lot: Lot): LotState {
  return ware.lots.get(lot.id) ?? startLot(ware, lot, undefined);
}

/** Puts the materials and buckets in stock that a count gives a cost. */
export function openMaterials(store: Store, counted: Counted): void {
  (counted.materials ?? []).forEach((line, index) => {
    if (!isOpening(line)) return;
    const path = ['materials', index, 'cost'];
    const goods = drawOf(counted, line, { reason: 'opening', path });
    openPool(store, goods, booked(store.book, line.cost));
  });
}

/** Puts the ware on its way, or on the shelf, that a count gives a cost: all of it is cost of clay. */
export function openWare(ware: Ware, counted: Counted): void {
  (counted.pieces ?? []).forEach((line, index) => {
    if (isOpening(line) && line.count > 0) openLine(ware, counted, { line, index });
  });
}

interface OpeningLine {
  readonly line: CountedWare;
  readonly index: number;
}

function openLine(ware: Ware, counted: Counted, { line, index }: OpeningLine): void {
  noteOpenedTwice(ware, counted, { line, index });
  const { date: day, id: by } = counted;
  const { stage: named = 'finished', count, place = STUDIO_PLACE, grade = 'first' } = line;
  const state = lotOf(ware, counted, { line, index });
  const cost = ware.isValued ? { clay: booked(ware.book, line.cost) } : NO_COST;
  ware.touched.add(state);
  const stage = stageOf(state.fired, named) ?? state.fired.length;
  const batch = state.stages[stage];
  state.steps.push({ stage, change: count, by: 'counted', day });
  if (batch) state.stages[stage] = joined(batch, { count, cost });
  else openFinished(ware, state, { day, grade, place, count, cost });
  const at = batch ? stage : place;
  noteWare(ware, { day, reason: 'opened', by, lot: state.lot.id, count, cost, at });
}

/** The lot that is named, else one of the line's own. */
function lotOf(ware: Ware, counted: Counted, { line, index }: OpeningLine): LotState {
  const lot = ware.book.pieces.get(line.lot ?? '');
  if (lot) return nameLot(ware, lot);
  const { product, glaze } = line;
  return startLot(ware, foundLot(counted, { index, product, glaze }), undefined);
}

/** Ware that the book knows already can't be what was there when it began. */
function noteOpenedTwice(ware: Ware, counted: Counted, { line, index }: OpeningLine): void {
  const { product, lot, stage, glaze, grade, place, count } = line;
  const key = JSON.stringify([product, lot, stage, glaze, grade, place]);
  const made = [...ware.lots.values()].filter((each) => each.lot.product === product);
  const isKnown = made.some(({ wasThere }) => !wasThere);
  const isTwice = ware.opened.has(key);
  ware.opened.add(key);
  if (!isKnown && !isTwice) return;
  const at = { file: counted.file, path: [counted.id, 'pieces', index, 'cost'] };
  const short = { kind: 'opening', day: counted.date, at, what: product, isTwice } as const;
  noteShort(ware, { ...short, wanted: count, had: 0 });
}
