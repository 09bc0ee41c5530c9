import { expect, test } from 'vitest';
import { likelyDays, likelySpan, likelyTime } from '../../../src/check/faults/numerals.ts';

test.each<[string, string[]]>([
  ['2026-3-8', ['2026-03-08']],
  ['2026.03.08', ['2026-03-08']],
  ['2026-03-08T10:00', ['2026-03-08']],
  ['8/3/2026', ['2026-08-03', '2026-03-08']],
  ['3. 3. 2026', ['2026-03-03']],
  ['13/3/2026', ['2026-03-13']],
  ['3/13/2026', ['2026-03-13']],
  ['2026-02-30', ['2026-02-28', '2026-03-02']],
  ['32/1/2026', []],
  ['2026', []],
  ['March', []],
])('%s may mean %s', (text, answers) => {
  expect(likelyDays(text)).toEqual(answers);
});

test.each([
  ['6:30', '06:30'],
  ['6.30', '06:30'],
  ['6h30', '06:30'],
  ['6 am', '06:00'],
  ['12 am', '00:00'],
  ['12:15 p.m.', '12:15'],
  ['9pm', '21:00'],
  ['24:00', '00:00'],
  ['25:00', undefined],
  ['6:75', undefined],
  ['noon', undefined],
])('%s means %s', (text, time) => {
  expect(likelyTime(text)).toBe(time);
});

test.each([
  ['16 to 21', '16:00-21:00'],
  ['4pm – 9pm', '16:00-21:00'],
  ['22:00 - 6:00', '22:00-06:00'],
  ['16:00', undefined],
  ['1-2-3', undefined],
  ['x-y', undefined],
])('%s means %s', (text, span) => {
  expect(likelySpan(text)).toBe(span);
});
