/** Whether any schedule brings everything in time: all of them are tried, day by day. For small work alone. */
import type { KilnAhead } from '../../../../src/reckon/planning/kilns-ahead.ts';
import type { WorkAhead } from '../../../../src/reckon/planning/schedule.ts';
import { coneIn, type WareSort } from '../../../../src/reckon/planning/ware-sort.ts';

/** One piece by itself. */
interface Piece {
  readonly sort: WareSort;
  readonly due: number;
  /** Undefined: not made yet. */
  readonly stage: number | undefined;
  readonly ready: number;
}

interface State {
  readonly day: number;
  readonly pieces: readonly Piece[];
  readonly free: readonly number[];
  readonly minutes: number;
}

/** Tries every choice of every day. */
export function isPossible(ahead: WorkAhead): boolean {
  const { calendar } = ahead;
  const wanted = [
    ...ahead.toMake.map((each) => ({ ...each, stage: undefined, ready: calendar.today })),
    ...ahead.waiting,
  ].flatMap(({ sort, due, count, stage, ready }) =>
    due === undefined
      ? []
      : Array.from({ length: count }, (): Piece => ({ sort, due, stage, ready })),
  );
  const free = calendar.kilns.map(({ freeOn }) => freeOn);
  return canFrom(ahead, new Map(), { day: calendar.today, pieces: wanted, free, minutes: 0 });
}

function canFrom(ahead: WorkAhead, known: Map<string, boolean>, state: State): boolean {
  const open = state.pieces.filter(
    ({ sort, stage }) => stage === undefined || stage < sort.fired.length,
  );
  const isLate = state.pieces.some(({ sort, stage, due, ready }) =>
    stage === sort.fired.length ? ready > due : state.day > due,
  );
  if (isLate) return false;
  if (open.length === 0) return true;
  const key = JSON.stringify([
    state.day,
    state.minutes,
    state.free.map((day) => Math.max(day, state.day)),
    open
      .map(({ sort, due, stage, ready }) =>
        [sort.name, sort.fired, due, stage, Math.max(ready, state.day)].join(),
      )
      .sort(),
  ]);
  const before = known.get(key);
  if (before !== undefined) return before;
  const can = choices(ahead, { ...state, pieces: open }).some((next) =>
    canFrom(ahead, known, next),
  );
  known.set(key, can);
  return can;
}

/** Every way to spend a day. */
function choices(ahead: WorkAhead, state: State): State[] {
  const { calendar, minutesADay } = ahead;
  const next = { ...state, day: state.day + 1 };
  if (calendar.isRest(state.day)) return [next];
  const minutes = state.minutes + (minutesADay ?? 0);
  let states = made(ahead, { ...next, minutes }, state.day);
  calendar.kilns.forEach((kiln, at) => {
    states = states.flatMap((each) => [each, ...fired(ahead, each, { kiln, at, day: state.day })]);
  });
  return states;
}

function made(ahead: WorkAhead, state: State, day: number): State[] {
  const unmade = state.pieces.filter(({ stage }) => stage === undefined);
  const dry = day + ahead.calendar.waits.drying.days;
  return subsets(unmade).flatMap((some) => {
    const minutes = some.reduce((sum, { sort }) => sum + sort.minutes, 0);
    if (ahead.minutesADay !== undefined && minutes > state.minutes) return [];
    const pieces = state.pieces.map((piece) =>
      some.includes(piece) ? { ...piece, stage: 0, ready: dry } : piece,
    );
    return [
      {
        ...state,
        pieces,
        minutes: state.minutes - (ahead.minutesADay === undefined ? 0 : minutes),
      },
    ];
  });
}

function fired(
  { calendar }: WorkAhead,
  state: State,
  { kiln, at, day }: { readonly kiln: KilnAhead; readonly at: number; readonly day: number },
): State[] {
  if ((state.free[at] ?? 0) > day) return [];
  const ready = state.pieces.filter(
    ({ sort, stage, ready: from }) =>
      stage !== undefined && stage < sort.fired.length && from <= day,
  );
  return subsets(ready).flatMap((some) => {
    const [first] = some;
    const kind = first?.sort.fired[first.stage ?? 0];
    if (!first || kind === undefined) return [];
    const isOne = some.every(
      ({ sort, stage }) =>
        sort.fired[stage ?? 0] === kind && coneIn(sort, kind) === coneIn(first.sort, kind),
    );
    const taken = some.reduce((sum, { sort }) => sum + sort.roomOf(kind), 0);
    if (!isOne || taken > kiln.roomFor(kind)) return [];
    const out = day + kiln.cycle;
    const pieces = state.pieces.map((piece) =>
      some.includes(piece) ? after(calendar.waits, piece, out) : piece,
    );
    return [
      { ...state, pieces, free: state.free.map((each, index) => (index === at ? out : each)) },
    ];
  });
}

function after(waits: WorkAhead['calendar']['waits'], piece: Piece, out: number): Piece {
  const stage = (piece.stage ?? 0) + 1;
  const kind = piece.sort.fired[stage];
  const wait = kind === undefined ? 'packing' : kind === 'lustre' ? 'decorating' : 'glazing';
  return { ...piece, stage, ready: out + waits[wait].days };
}

function subsets<T>(all: readonly T[]): T[][] {
  return all.reduce<T[][]>(
    (found, each) => [...found, ...found.map((some) => [...some, each])],
    [[]],
  );
}
