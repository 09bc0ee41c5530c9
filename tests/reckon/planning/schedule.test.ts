/** What holds of every schedule, and that what is called impossible is so in all schedules there are. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boundOf } from '../../../src/reckon/planning/bound.ts';
import { fittingOf, lateIn } from '../../../src/reckon/planning/fitting.ts';
import { scheduleOf, type WorkAhead } from '../../../src/reckon/planning/schedule.ts';
import { coneIn } from '../../../src/reckon/planning/ware-sort.ts';
import { holds } from '../../helpers/law.ts';
import { isPossible } from './support/every-schedule.ts';
import { TODAY, workAhead } from './support/work-ahead.ts';

const LARGE = { lots: 6, pieces: 12, days: 40, longestWait: 6 };

function countIn(pieces: readonly { readonly count: number }[]): number {
  return pieces.reduce((sum, { count }) => sum + count, 0);
}

function everySchedule(check: (ahead: WorkAhead) => void): void {
  holds(fc.property(workAhead(LARGE), check), 150);
}

describe('a schedule', () => {
  it('never fills a kiln beyond its room, nor with ware that goes to another firing or cone', () => {
    everySchedule((ahead) => {
      for (const { kiln, kind, cone, pieces, taken, room } of scheduleOf(ahead).loads) {
        const rooms = pieces.map(({ sort, count }) => sort.roomOf(kind) * count);
        expect(taken).toBe(rooms.reduce((sum, each) => sum + each, 0));
        expect(room).toBe(kiln.roomFor(kind));
        expect(taken).toBeLessThanOrEqual(room);
        expect(countIn(pieces)).toBeGreaterThan(0);
        for (const { sort, stage } of pieces)
          expect([sort.fired[stage], coneIn(sort, kind)]).toEqual([kind, cone]);
      }
    });
  });

  it('fires a kiln once in its time, and not before it is free', () => {
    everySchedule((ahead) => {
      const { loads } = scheduleOf(ahead);
      for (const kiln of ahead.calendar.kilns) {
        let free = kiln.freeOn;
        for (const { day, out } of loads.filter((load) => load.kiln === kiln)) {
          expect(day).toBeGreaterThanOrEqual(free);
          expect(out).toBeGreaterThanOrEqual(day + kiln.cycle);
          free = out;
        }
      }
    });
  });

  it('loads no ware before it is dry, and none before it is out of the kiln and glazed', () => {
    everySchedule((ahead) => {
      const { waits } = ahead.calendar;
      const { making, loads } = scheduleOf(ahead);
      for (const { day, pieces } of loads)
        for (const { ready } of pieces) expect(ready).toBeLessThanOrEqual(day);
      // By counts alone: no more green ware is in kilns by a day than was dry by it.
      for (const { day } of loads) {
        const dry = countIn(making.filter((each) => each.day + waits.drying.days <= day));
        const before = ahead.waiting.filter(({ stage, ready }) => stage === 0 && ready <= day);
        const loaded = loads
          .filter((load) => load.day <= day)
          .flatMap(({ pieces }) => pieces.filter(({ stage }) => stage === 0));
        expect(countIn(loaded)).toBeLessThanOrEqual(dry + countIn(before));
      }
    });
  });

  it('plans no work before today, none on a day of rest, and no more than there are hours', () => {
    everySchedule((ahead) => {
      const { calendar, minutesADay } = ahead;
      const { making, loads } = scheduleOf(ahead);
      for (const day of [
        ...making.map((each) => each.day),
        ...loads.flatMap((each) => [each.day, each.out]),
      ]) {
        expect(day).toBeGreaterThanOrEqual(TODAY);
        expect(calendar.isRest(day)).toBe(false);
      }
      let there = 0;
      for (let day = TODAY; minutesADay !== undefined && day < TODAY + 60; day += 1) {
        there += calendar.isRest(day) ? 0 : minutesADay;
        const worked = making.filter((each) => each.day <= day);
        const minutes = worked.reduce((sum, { sort, count }) => sum + sort.minutes * count, 0);
        expect(minutes).toBeLessThanOrEqual(there);
      }
    });
  });

  it('loses and invents no piece, and brings each through all its firings', () => {
    everySchedule((ahead) => {
      const { making, packed, left, loads } = scheduleOf(ahead);
      const all = countIn([...ahead.toMake, ...ahead.waiting]);
      expect(countIn(packed) + countIn(left)).toBe(all);
      expect(countIn(making)).toBeLessThanOrEqual(countIn(ahead.toMake));
      const toCome = ahead.waiting.map(({ sort, stage, count }) => ({
        count: count * (sort.fired.length - stage),
      }));
      const made = ahead.toMake.map(({ sort, count }) => ({ count: count * sort.fired.length }));
      const open = left.map((each) => {
        const stage = 'stage' in each ? each.stage : 0;
        return { count: each.count * (each.sort.fired.length - stage) };
      });
      const passed = countIn(loads.flatMap(({ pieces }) => pieces));
      expect(passed).toBe(countIn(toCome) + countIn(made) - countIn(open));
    });
  });

  it('is in time where it says so', () => {
    everySchedule((ahead) => {
      const { schedule, late, remedies, bound } = fittingOf(ahead);
      const inTime = schedule.packed.filter(({ due, day }) => due !== undefined && day <= due);
      const wanted = [...ahead.toMake, ...ahead.waiting].filter(({ due }) => due !== undefined);
      expect(countIn(inTime) + countIn(late)).toBe(countIn(wanted));
      if (late.length === 0) expect([remedies, bound]).toEqual([[], undefined]);
      // What helps with what is late first helps.
      if (remedies[0]?.how === 'loads')
        expect(
          lateIn(scheduleOf({ ...ahead, fullEnough: 0 })).every(({ due }) => due > late[0]!.due),
        ).toBe(true);
    });
  });
});

describe('a bound', () => {
  const SMALL = { lots: 2, pieces: 2, days: 9, longestWait: 2 };

  it('is never wrong: what it rules out, none of all schedules can do', () => {
    let [ruledOut, possible] = [0, 0];
    holds(
      fc.property(workAhead(SMALL), (ahead) => {
        const bound = boundOf(ahead);
        const can = isPossible(ahead);
        if (can) possible += 1;
        else if (bound) ruledOut += 1;
        expect(bound === undefined || !can).toBe(true);
      }),
      200,
      { endOnFailure: true },
    );
    expect(ruledOut).toBeGreaterThan(10);
    expect(possible).toBeGreaterThan(10);
  });

  it('is found wherever a schedule is late and every other one is too, in most cases', () => {
    let [found, all] = [0, 0];
    holds(
      fc.property(workAhead(SMALL), (ahead) => {
        if (isPossible(ahead)) return;
        all += 1;
        if (boundOf(ahead)) found += 1;
      }),
      200,
    );
    expect(found / all).toBeGreaterThan(0.7);
  });
});
