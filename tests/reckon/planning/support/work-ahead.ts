/** Random work ahead: kilns, sorts of ware, what is to be made and what waits. */
import fc from 'fast-check';
import type { FiringKind } from '../../../../src/book.ts';
import { calendarFrom } from '../../../../src/reckon/planning/calendar.ts';
import type { KilnAhead } from '../../../../src/reckon/planning/kilns-ahead.ts';
import type { WorkAhead } from '../../../../src/reckon/planning/schedule.ts';
import { WAITS, type Waits } from '../../../../src/reckon/planning/waits.ts';
import type { WareSort } from '../../../../src/reckon/planning/ware-sort.ts';
import { keyed } from '../../../../src/grouping.ts';

/** How large the work is. */
export interface Size {
  readonly lots: number;
  readonly pieces: number;
  readonly days: number;
  readonly longestWait: number;
}

/** Monday 2026-06-01. */
export const TODAY = 20605;

const FIRED: readonly (readonly FiringKind[])[] = [
  ['bisque', 'glaze'],
  ['once'],
  ['bisque', 'glaze', 'lustre'],
];

function sorts({ longestWait }: Size): fc.Arbitrary<WareSort> {
  return fc
    .record({
      name: fc.constantFrom('mug', 'bowl', 'plate'),
      fired: fc.constantFrom(...FIRED.slice(0, longestWait > 2 ? 3 : 2)),
      cone: fc.constantFrom(undefined, '6', '04'),
      space: fc.integer({ min: 1, max: 4 }),
      bisque: fc.integer({ min: 1, max: 2 }),
      minutes: fc.constantFrom(0, 10, 25),
    })
    .map(({ name, fired, cone, space, bisque, minutes }) => ({
      ...{ name: `${name} ${cone ?? ''}${space}`, product: name, glaze: undefined },
      ...{ fired, cone, minutes },
      roomOf: (kind) => (kind === 'bisque' ? Math.min(bisque, space) : space),
    }));
}

const kilns: fc.Arbitrary<KilnAhead> = fc
  .record({
    room: fc.integer({ min: 2, max: 12 }),
    cycle: fc.integer({ min: 1, max: 3 }),
    busy: fc.integer({ min: 0, max: 3 }),
    kinds: fc.subarray<FiringKind>(['bisque', 'glaze', 'once', 'lustre'], { minLength: 3 }),
  })
  .map(({ room, cycle, busy, kinds }) => ({
    id: 'kiln',
    roomFor: (kind) => (kinds.includes(kind) ? room : 0),
    cycle,
    freeOn: TODAY + busy,
  }));

function waits({ longestWait }: Size): fc.Arbitrary<Waits> {
  const days = fc.integer({ min: 0, max: longestWait });
  return fc.array(days, { minLength: WAITS.length, maxLength: WAITS.length }).map((each) =>
    keyed(WAITS, (name) => {
      return { days: each[WAITS.indexOf(name)] ?? 0, from: 'settings', slow: undefined };
    }),
  );
}

/** Work of a size. */
export function workAhead(size: Size): fc.Arbitrary<WorkAhead> {
  const due = fc.option(fc.integer({ min: TODAY, max: TODAY + size.days }), { nil: undefined });
  const pieces = fc.record({
    sort: sorts(size),
    due,
    count: fc.integer({ min: 1, max: size.pieces }),
  });
  const waiting = fc
    .record({ pieces, stage: fc.integer({ min: 0, max: 2 }), in: fc.integer({ min: 0, max: 3 }) })
    .map(({ pieces: some, stage, in: days }) => {
      return { ...some, stage: Math.min(stage, some.sort.fired.length), ready: TODAY + days };
    });
  return fc
    .record({
      toMake: fc.array(pieces, { maxLength: size.lots }),
      waiting: fc.array(waiting, { maxLength: size.lots }),
      kilns: fc.array(kilns, { minLength: 1, maxLength: 2 }),
      waits: waits(size),
      rest: fc.constantFrom([], ['sun'], ['sat', 'sun', '2026-06-03']),
      minutesADay: fc.constantFrom(undefined, 30, 60),
      fullEnough: fc.constantFrom(0, 0.8),
    })
    .map(({ rest, kilns: some, waits: each, ...work }) => ({
      ...work,
      calendar: calendarFrom(TODAY, rest, { kilns: some, waits: each }),
    }));
}
