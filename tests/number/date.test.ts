import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addDays,
  dayFromNumber,
  dayMeant,
  dayNumber,
  dayWordsIn,
  daysBetween,
  isDay,
  isTime,
  minutesOf,
  monthOf,
  weekdayOf,
  yearOf,
  yearSpan,
} from '../../src/number/date.ts';
import { holds } from '../helpers/law.ts';

const MILLISECONDS = 86_400_000;
const FIRST = -719_528;
const LAST = 2_932_896;

/** The language's own calendar, in UTC, as an independent reference. */
function native(number: number): Date {
  return new Date(number * MILLISECONDS);
}

const numbers = fc.integer({ min: FIRST, max: LAST });
const days = numbers.map((number) => native(number).toISOString().slice(0, 10));
const yearStarts = fc.integer({ min: 0, max: 365 }).map((offset) =>
  native(10_957 + offset)
    .toISOString()
    .slice(5, 10),
);

describe('dayNumber and dayFromNumber', () => {
  it('agree with the language in every year from 0000 to 9999', () => {
    holds(
      fc.property(numbers, (number) => {
        const day = native(number).toISOString().slice(0, 10);
        expect(dayFromNumber(number)).toBe(day);
        expect(dayNumber(day)).toBe(number);
      }),
      2000,
    );
  });

  it('agree with the language on every day of 400 years', () => {
    const wrong = Array.from({ length: 146_097 }, (_, offset) => offset - 25_567).filter(
      (number) => {
        const day = native(number).toISOString().slice(0, 10);
        return dayFromNumber(number) !== day || dayNumber(day) !== number;
      },
    );
    expect(wrong).toEqual([]);
  });

  it.each([
    ['1970-01-01', 0],
    ['1969-12-31', -1],
    ['2000-03-01', 11_017],
    ['0000-01-01', FIRST],
    ['9999-12-31', LAST],
  ])('count %s as %d', (day, number) => {
    expect(dayNumber(day)).toBe(number);
    expect(dayFromNumber(number)).toBe(day);
  });

  it('stay within four-digit years', () => {
    expect(dayFromNumber(LAST + 1)).toBe('9999-12-31');
    expect(addDays('2026-03-08', 1e12)).toBe('9999-12-31');
    expect(addDays('2026-03-08', -1e12)).toBe('0000-01-01');
  });
});

describe('isDay', () => {
  it('accepts every real day', () => {
    holds(
      fc.property(days, (day) => {
        expect(isDay(day)).toBe(true);
      }),
    );
  });

  it('accepts just the combinations that the language does not move on', () => {
    const year = fc.integer({ min: 0, max: 9999 });
    holds(
      fc.property(year, fc.nat({ max: 13 }), fc.nat({ max: 32 }), (y, m, d) => {
        const date = new Date(0);
        date.setUTCFullYear(y, m - 1, d);
        const isReal = date.getUTCMonth() === m - 1 && date.getUTCDate() === d;
        const text = [String(y).padStart(4, '0'), ...[m, d].map((n) => String(n).padStart(2, '0'))];
        expect(isDay(text.join('-'))).toBe(isReal);
      }),
    );
  });

  it.each(['2024-02-29', '2000-02-29'])('knows the leap day %s', (day) => {
    expect(isDay(day)).toBe(true);
  });

  it.each([
    '2023-02-29',
    '1900-02-29',
    '2026-04-31',
    '2026-13-01',
    '2026-00-10',
    '2026-01-00',
    '2026-1-1',
    '26-01-01',
    '2026/01/01',
    '20260101',
    '2026-01-01T00:00',
    ' 2026-01-01',
    '2026-01-01\n',
    '',
  ])('refuses "%s"', (text) => {
    expect(isDay(text)).toBe(false);
  });
});

describe('addDays and daysBetween', () => {
  it('undo each other, and order as text does', () => {
    holds(
      fc.property(days, days, (a, b) => {
        const between = daysBetween(a, b);
        expect(addDays(a, between)).toBe(b);
        expect(addDays(b, -between)).toBe(a);
        expect(between > 0).toBe(a < b);
      }),
    );
  });

  it('cross the ends of months and years', () => {
    expect(addDays('2024-02-28', 1)).toBe('2024-02-29');
    expect(addDays('2025-12-31', 1)).toBe('2026-01-01');
    expect(daysBetween('2026-03-08', '2026-03-01')).toBe(-7);
  });
});

describe('weekdayOf', () => {
  it('agrees with the language', () => {
    const names = ['sun', 'mon', 'tue', 'wed', 'thu', 'fri', 'sat'];
    holds(
      fc.property(numbers, (number) => {
        const date = native(number);
        expect(weekdayOf(date.toISOString().slice(0, 10))).toBe(names[date.getUTCDay()]);
      }),
    );
  });
});

describe('monthOf', () => {
  it('leaves the day out', () => {
    expect(monthOf('2026-03-08')).toBe('2026-03');
  });
});

describe('times', () => {
  it('are every minute of the day, each an own number', () => {
    const two = (part: number) => String(part).padStart(2, '0');
    for (let minute = 0; minute < 1440; minute += 1) {
      const time = `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
      expect(isTime(time) && minutesOf(time)).toBe(minute);
    }
  });

  it.each(['24:00', '6:30', '06:60', '0630', '06:30:00', '29:00', ''])('are not "%s"', (text) => {
    expect(isTime(text)).toBe(false);
  });
});

describe('business years', () => {
  it.each([
    ['2025', '01-01', '2025-01-01', '2025-12-31'],
    ['2025', '04-06', '2025-04-06', '2026-04-05'],
    ['2023', '03-01', '2023-03-01', '2024-02-29'],
    ['2024', '02-29', '2024-02-29', '2025-02-28'],
    ['2023', '02-29', '2023-03-01', '2024-02-28'],
  ])('the year %s from %s runs from %s to %s', (...[year, starts, from, to]) => {
    expect(yearSpan(year, starts)).toEqual({ from, to });
  });

  it('starts in January unless said otherwise', () => {
    expect(yearSpan('2025')).toEqual(yearSpan('2025', '01-01'));
    expect(yearOf('2025-12-31')).toBe('2025');
  });

  it('follow each other without gap or overlap', () => {
    holds(
      fc.property(fc.integer({ min: 1000, max: 9998 }), yearStarts, (year, starts) => {
        const end = yearSpan(String(year), starts).to;
        expect(addDays(end, 1)).toBe(yearSpan(String(year + 1), starts).from);
      }),
    );
  });

  it('hold the days that are in them', () => {
    holds(
      fc.property(fc.integer({ min: -354_285, max: LAST }), yearStarts, (number, starts) => {
        const day = dayFromNumber(number);
        const { from, to } = yearSpan(yearOf(day, starts), starts);
        expect(from <= day && day <= to).toBe(true);
      }),
    );
  });
});

describe('dayMeant', () => {
  // 2026-03-11 is a Wednesday.
  it.each([
    ['2026-03-08', '2026-03-08'],
    ['today', '2026-03-11'],
    ['Yesterday', '2026-03-10'],
    ['tuesday', '2026-03-10'],
    ['monday', '2026-03-09'],
    ['Sun', '2026-03-08'],
    ['thursday', '2026-03-05'],
    // The last one before today, also on that very day of the week.
    ['wednesday', '2026-03-04'],
    ['3 days ago', '2026-03-08'],
    ['1 day ago', '2026-03-10'],
    ['2 weeks ago', '2026-02-25'],
    ['11 days ago', '2026-02-28'],
  ])('%s', (words, day) => {
    expect(dayMeant(words, '2026-03-11')).toBe(day);
  });

  it.each(['2026-02-30', 'tomorrow', 'no', '3 days', 'days ago', 'mo', ''])('not %j', (words) => {
    expect(dayMeant(words, '2026-03-11')).toBeUndefined();
  });

  it('says how many words are of it', () => {
    expect(dayWordsIn(['3', 'days', 'ago', 'at', '25'])).toBe(3);
    expect(dayWordsIn(['yesterday', 'at', '25'])).toBe(1);
    expect(dayWordsIn(['no', 'owed'])).toBe(0);
  });
});
