/** What a studio had when its book began: counted with a cost, before anything else of the day (rules 2, 16, 17). */
import type { Book, Counted, Day, Firing, Lot as LotRecord } from '../../src/book.ts';
import type { CountedWare } from '../../src/events.ts';
import { FREE, type Cost } from './costs.ts';
import { goodOf, isOut, unload, type Loaded } from './loading.ts';
import { joinFinished, newLot, ofGrade, type Lot } from './lots.ts';
import { moneyIn } from './money.ts';
import { join, EMPTY } from './pile.ts';
import { bringIn, causeOf, countPool, fitting, goTo, type State } from './state.ts';
import { NOTHING } from './fraction.ts';

/** Whether nothing moves stock on a day, for the book begins later. */
export function isBefore({ studio }: Book, day: Day): boolean {
  return day < (studio.starts ?? '');
}

/** The days on which a lot is counted with a cost. */
export function countedOn(book: Book, lot: string): Day[] {
  const all = [...book.counted.values()].filter(({ pieces = [] }) =>
    pieces.some((line) => line.lot === lot && line.cost !== undefined),
  );
  return all.map(({ date }) => date).sort();
}

/** Whether the record of a lot only names what was made before the book. */
export function isOlder(book: Book, { id, date }: LotRecord): boolean {
  return isBefore(book, date) || countedOn(book, id).length > 0;
}

/** A lot of which nothing is there. */
export function name(state: State, record: LotRecord): Lot {
  const known = state.lots.get(record.id);
  const lot = known ?? newLot(state.book, { ...record, made: 0 }, FREE);
  state.lots.set(record.id, lot);
  return lot;
}

/** All there is of what is counted with a cost came in at that cost; what the book had of a material goes. */
export function open(state: State, counted: Counted): void {
  for (const { material, quantity, cost } of counted.materials ?? []) {
    const fits = fitting(state, material, quantity);
    const kept = state.pools.get(material);
    if (cost === undefined || !fits || fits.top === 0n || !kept) continue;
    // A count of nothing leaves a pool as if it had never been there.
    if (kept.movements.some((moved) => moved.quantity.top !== 0n))
      countPool(state, material, { ...causeOf(counted, 'counted'), quantity: NOTHING });
    const value = moneyIn(state.book, cost);
    bringIn(state, material, { ...causeOf(counted, 'opening'), quantity: fits, value });
  }
  (counted.pieces ?? []).forEach((line, at) => {
    if (line.cost !== undefined && line.count > 0) openWare(state, counted, { line, at });
  });
}

function openWare(
  state: State,
  { id, file, date: day }: Counted,
  { line, at }: { line: CountedWare; at: number },
): void {
  const record = state.book.pieces.get(line.lot ?? '');
  const { glaze } = line;
  const lone = { id: `${id}/${String(at)}`, file, date: day, product: line.product, made: 0 };
  const lot = record
    ? name(state, record)
    : { ...newLot(state.book, lone, FREE), ...(glaze === undefined ? {} : { glazes: [glaze] }) };
  state.lots.set(lot.id, lot);
  const { stage = 'finished', count, grade = 'first', place = '' } = line;
  const cost: Cost = { ...FREE, clay: moneyIn(state.book, line.cost) };
  const fired = { greenware: 0, bisqueware: lot.fired.indexOf('bisque') + 1 };
  const had = { ...fired, 'glaze-fired': lot.fired.indexOf('glaze') + 1, finished: Infinity }[
    stage
  ];
  if (had < lot.stages.length) lot.stages[had] = join(lot.stages[had] ?? EMPTY, count, cost);
  else {
    joinFinished(lot, { place, day }, ofGrade(grade, count, cost));
    state.lastLoads.set(lot.product, { good: count, cost });
  }
}

/** Pieces of a firing that come out of the kiln on a later day. */
export interface Waiting {
  readonly firing: Firing;
  readonly loaded: Loaded;
  readonly cost: Cost;
}

/** The day on which what came out of a firing counts. */
export function dayOut({ date, unloaded = date }: Firing): Day {
  return unloaded < date ? date : unloaded;
}

/** Puts pieces into a kiln until they are out. */
export function keepInKiln(state: State, waiting: Waiting): void {
  const { firing, loaded, cost } = waiting;
  loaded.lot.inKilns.push({ firing: firing.id, count: loaded.line.in, cost });
  if (isOut(loaded.line)) state.waiting.push(waiting);
}

/** Takes what is out of a firing where it belongs, with all that it cost. */
export function comeOut(state: State, { firing, loaded, cost }: Waiting): void {
  const { lot, line, to } = loaded;
  const good = goodOf(line);
  const day = dayOut(firing);
  if (good === 0) goTo(state, 'lost', { day, record: firing.id, what: lot.id, cost });
  else unload(loaded, day, cost);
  if (good > 0 && to >= lot.stages.length) state.lastLoads.set(lot.product, { good, cost });
}

/** A kiln is unloaded on a later day than it was fired. */
export function unloadKiln(state: State, { id }: Firing): void {
  for (const waiting of state.waiting.filter(({ firing }) => firing.id === id)) {
    const { inKilns } = waiting.loaded.lot;
    const at = inKilns.findIndex((one) => one.firing === id && one.cost === waiting.cost);
    inKilns.splice(at, 1);
    comeOut(state, waiting);
  }
}
