/** A second reckoning of a book, slow and plain: every event in its order, and nothing kept. */
import type { Book, Counted, Day, Lot } from '../../src/book.ts';
import { byCodeUnits } from './days.ts';
import { fire } from './firing.ts';
import { resultOf } from './lots.ts';
import { loseSome, make } from './making.ts';
import { countWare, deliver, leave, placeOf } from './moving.ts';
import { countedOn, dayOut, isBefore, isOlder, name, open, unloadKiln } from './opening.ts';
import { quantityIn, valueIn } from './pool.ts';
import type { PoolResult, SecondReckoning } from './result.ts';
import { sell } from './selling.ts';
import { newState, type Kept, type State } from './state.ts';
import { buy, countMaterials, mix, reclaim, use } from './stock.ts';
import { inUnit } from './units.ts';

/** One thing that happens: its place in the day, and what it does. */
interface Event {
  readonly day: Day;
  readonly step: number;
  readonly id: string;
  /** Of several of one record, in their order. */
  readonly line: number;
  readonly run: () => void;
}

type Happening = Omit<Event, 'step'>;

/** Everything that a book comes to at the end of a day. */
export function reckonAgain(book: Book, asOf: Day): SecondReckoning {
  const state = newState(book);
  const isNamed = ({ step }: Event): boolean => step === PIECES;
  const events = eventsIn(state)
    .filter(({ day }) => day <= asOf)
    .filter((event) => isNamed(event) || !isBefore(book, event.day));
  for (const { run } of events.sort(inTheDay)) run();
  const { landed, firings, went, sales, owed, shortfalls } = state;
  const pools = new Map([...state.pools].map(([id, kept]) => [id, poolResult(kept)]));
  const lots = new Map([...state.lots].map(([id, lot]) => [id, resultOf(lot)]));
  return { pools, landed, firings, lots, went, sales, owed, shortfalls };
}

function inTheDay(a: Event, b: Event): number {
  return byCodeUnits(a.day, b.day) || a.step - b.step || byCodeUnits(a.id, b.id) || a.line - b.line;
}

function poolResult({ unit, pool, movements }: Kept): PoolResult {
  return { unit, quantity: inUnit(quantityIn(pool), unit), value: valueIn(pool), movements };
}

/** Rule 17: the steps of a day, in their order. */
function eventsIn(state: State): Event[] {
  const { book } = state;
  const each = eachIn(state);
  const steps: Happening[][] = [
    each(book.counted, open),
    each(book.bought, buy),
    each(book.reclaimed, reclaim),
    each(book.mixed, mix),
    each(book.pieces, begin),
    unloadings(state),
    losses(state),
    each(book.firings, fire),
    each(book.used, use),
    goneFrom(state, 'studio'),
    each(book.consigned, deliver),
    goneFrom(state, 'gallery'),
    each(book.sales, sell),
    each(book.counted, count),
  ];
  return steps.flatMap((events, step) => events.map((event) => ({ ...event, step })));
}

/** The step in which lots begin. */
const PIECES = 4;

function begin(state: State, record: Lot): void {
  if (isOlder(state.book, record)) name(state, record);
  else make(state, record);
}

function unloadings(state: State): Happening[] {
  return [...state.book.firings.values()].map((firing) => ({
    ...{ day: dayOut(firing), id: firing.id, line: 0 },
    run: () => {
      if (dayOut(firing) > firing.date) unloadKiln(state, firing);
    },
  }));
}

function count(state: State, counted: Counted): void {
  countMaterials(state, counted);
  countWare(state, counted);
}

/** One event for each record of a kind. */
function eachIn(state: State) {
  return <T extends { readonly id: string; readonly date: Day }>(
    records: ReadonlyMap<string, T>,
    act: (state: State, record: T) => void,
  ): Happening[] =>
    [...records.values()].map((one) => ({
      ...{ day: one.date, id: one.id, line: 0 },
      run: () => {
        act(state, one);
      },
    }));
}

function losses(state: State): Happening[] {
  return [...state.book.pieces.values()].flatMap(({ id, lost = [] }) =>
    lost.flatMap((loss, line) =>
      isKnownBy(state, id, loss.date)
        ? {
            ...{ day: loss.date, id, line },
            run: () => {
              loseSome(state, id, loss);
            },
          }
        : [],
    ),
  );
}

/** What happened to a lot before it was counted is no part of the book. */
function isKnownBy({ book }: State, lot: string, day: Day): boolean {
  return day >= (countedOn(book, lot)[0] ?? '');
}

function goneFrom(state: State, where: 'studio' | 'gallery'): Happening[] {
  const lots = [...state.book.pieces.values()];
  const all = lots.flatMap(({ id, gone = [] }) => gone.map((one, line) => ({ id, line, one })));
  const some = all.filter(
    ({ id, one }) =>
      isKnownBy(state, id, one.date) &&
      (placeOf(state.book, one.channel) === '') === (where === 'studio'),
  );
  return some.map(({ id, line, one }) => ({
    ...{ day: one.date, id, line },
    run: () => {
      leave(state, id, one);
    },
  }));
}
