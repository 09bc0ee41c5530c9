/** Finished ware that moves without a sale: gone, sent and fetched, missing, counted (rules 10, 12, 16). */
import type { Book, Consigned, Counted } from '../../src/book.ts';
import type { Grade } from '../../src/definitions.ts';
import type { HowGone, LotGone } from '../../src/events.ts';
import { FREE, costOf, type Cost } from './costs.ts';
import {
  GRADES,
  inOrder,
  isMeant,
  joinFinished,
  loneWare,
  ofGrade,
  shift,
  standing,
  takeFinished,
  type Lot,
  type Named,
} from './lots.ts';
import { moneyIn } from './money.ts';
import { costLike } from './pile.ts';
import type { Account } from './result.ts';
import { goTo, type State } from './state.ts';

/** Where a channel's ware stands: at a gallery, or (empty) in the studio. */
export function placeOf(book: Book, channel: string | undefined): string {
  return book.channels.get(channel ?? '')?.kind === 'consignment' ? (channel ?? '') : '';
}

/** So many of what is meant, of some grades in a place. */
export interface Wanted {
  readonly named: Named;
  readonly grades: readonly Grade[];
  readonly place: string;
  readonly count: number;
}

export interface Found {
  readonly lot: Lot;
  readonly grade: Grade;
  readonly count: number;
}

/** Which pieces are meant: lot by lot as they were finished, and in a lot firsts before seconds. */
export function pick(state: State, { named, grades, place, count }: Wanted): Found[] {
  const meant = inOrder(state.lots.values()).filter((lot) => isMeant(lot, named));
  const piles = meant.flatMap((lot) => grades.map((grade) => ({ lot, grade })));
  let open = count;
  return piles.flatMap((pile): Found[] => {
    const some = Math.min(open, standing(pile.lot, pile.grade, place));
    open -= some;
    return some > 0 ? [{ ...pile, count: some }] : [];
  });
}

export function howMany(found: readonly Found[]): number {
  return found.reduce((sum, { count }) => sum + count, 0);
}

const WENT_TO: Readonly<Record<HowGone, Account>> = {
  gift: 'given',
  'given-away': 'given',
  kept: 'kept',
  broken: 'lost',
  missing: 'lost',
};

/** Finished ware of a lot leaves without a sale. */
export function leave(state: State, id: string, gone: LotGone): void {
  const lot = state.lots.get(id);
  if (!lot) return;
  const place = placeOf(state.book, gone.channel);
  const grades = gone.grade === undefined ? GRADES : [gone.grade];
  const named = { product: lot.product, lot: id };
  const cost = remove(state, { named, grades, place, count: gone.count }, id);
  for (const one of cost)
    goTo(state, WENT_TO[gone.how], { day: gone.date, record: id, what: id, cost: one.cost });
}

/** Takes what is there off its piles, and notes where it is too little. */
function remove(state: State, wanted: Wanted, record: string): { lot: Lot; cost: Cost }[] {
  const found = pick(state, wanted);
  noteShort(state, wanted, { found, record });
  return found.map(({ lot, grade, count }) => ({
    lot,
    cost: takeFinished(lot, { grade, place: wanted.place }, count),
  }));
}

function noteShort(
  state: State,
  { named, count }: Wanted,
  { found, record }: { found: readonly Found[]; record: string },
): void {
  if (howMany(found) < count) state.shortfalls.push({ of: named.lot ?? named.product, record });
}

/** A delivery, line by line: sent, back, missing. */
export function deliver(state: State, consigned: Consigned): void {
  const { id, date, channel, sent = [], back = [], missing = [] } = consigned;
  const wanted = (line: (typeof sent)[number], place: string): Wanted => {
    return { named: line, grades: [line.grade ?? 'first'], place, count: line.count };
  };
  for (const line of sent) move(state, wanted(line, ''), { to: channel, record: id });
  for (const line of back) move(state, wanted(line, channel), { to: '', record: id });
  for (const line of missing)
    for (const { lot, cost } of remove(state, wanted(line, channel), id))
      goTo(state, 'lost', { day: date, record: id, what: lot.id, cost });
  const owed = missing.map(({ owed: amount, paid }) => ({
    ...{ since: date, amount: moneyIn(state.book, amount) },
    paid: paid === 'no' ? undefined : paid,
  }));
  if (owed.length > 0) state.owed.set(id, owed);
}

/** Being sent or coming back moves no money. */
function move(state: State, wanted: Wanted, { to, record }: { to: string; record: string }): void {
  const found = pick(state, wanted);
  noteShort(state, wanted, { found, record });
  for (const { lot, grade, count } of found) {
    shift(lot, { grade, place: wanted.place }, -count);
    shift(lot, { grade, place: to }, count);
  }
}

/** The ware of a stocktake. */
export function countWare(state: State, counted: Counted): void {
  (counted.pieces ?? []).forEach((line, index) => {
    if (line.cost !== undefined) return;
    const grades = line.grade === undefined ? GRADES : [line.grade];
    const wanted = { named: line, grades, place: line.place ?? '', count: Infinity };
    const there = howMany(pick(state, wanted));
    const record = { id: counted.id, day: counted.date };
    if (line.count < there) miss(state, { ...wanted, count: there - line.count }, record);
    if (line.count > there)
      find(state, { ...wanted, count: line.count - there }, { ...record, index });
  });
}

function miss(state: State, wanted: Wanted, { id, day }: { id: string; day: string }): void {
  for (const { lot, cost } of remove(state, wanted, id))
    goTo(state, 'differences', { day, record: id, what: lot.id, cost });
}

/** Found pieces join a pile at what its pieces came to when something last came in. */
function find(
  state: State,
  { named, grades, place, count }: Wanted,
  { id, day, index }: { id: string; day: string; index: number },
): void {
  const [grade = 'first'] = grades;
  const lots = inOrder(state.lots.values()).filter((lot) => isMeant(lot, named));
  const there = lots.filter((lot) => standing(lot, grade, place) > 0);
  const lot = there.at(-1) ?? lots.at(-1) ?? addLone(state, `${id}/${String(index)}`, named);
  const cost = costLike(lot.finished, count);
  joinFinished(lot, { place, day }, ofGrade(grade, count, cost));
  const back = costOf((one) => FREE[one] - cost[one]);
  goTo(state, 'differences', { day, record: id, what: lot.id, cost: back });
}

/** Ware without a lot joins the others. */
export function addLone(state: State, id: string, { product, glaze }: Named): Lot {
  const lot = loneWare(id, product, glaze);
  state.lots.set(id, lot);
  return lot;
}
