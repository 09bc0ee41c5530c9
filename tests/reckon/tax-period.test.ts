import { describe, expect, it } from 'vitest';
import { addDays, yearSpan } from '../../src/number/date.ts';
import { quarterOn, quartersOf, taxPeriod } from '../../src/reckon/tax/tax-period.ts';

function spans(year: string, starts?: string): string[] {
  return quartersOf(year, starts).map(({ name, from, to }) => `${name} ${from} ${to}`);
}

describe('quarters of a business year', () => {
  it('are those of the calendar from 1 January', () => {
    expect(spans('2026')).toEqual([
      '2026-Q1 2026-01-01 2026-03-31',
      '2026-Q2 2026-04-01 2026-06-30',
      '2026-Q3 2026-07-01 2026-09-30',
      '2026-Q4 2026-10-01 2026-12-31',
    ]);
  });

  // HMRC, Making Tax Digital for Income Tax: standard update periods.
  it('run to 5 July, 5 October, 5 January and 5 April from 6 April', () => {
    expect(spans('2025', '04-06')).toEqual([
      '2025-Q1 2025-04-06 2025-07-05',
      '2025-Q2 2025-07-06 2025-10-05',
      '2025-Q3 2025-10-06 2026-01-05',
      '2025-Q4 2026-01-06 2026-04-05',
    ]);
  });

  it.each(['01-31', '02-28', '08-31', '11-30', '12-31', '10-01'])(
    'leave no day out and have none twice from %s',
    (starts) => {
      const quarters = quartersOf('2027', starts);
      const year = yearSpan('2027', starts);
      expect(quarters.map(({ from }) => from)).toEqual([
        year.from,
        ...quarters.slice(0, 3).map(({ to }) => addDays(to, 1)),
      ]);
      expect(quarters.at(-1)?.to).toBe(year.to);
      expect(quarters.every(({ from, to }) => from <= to)).toBe(true);
    },
  );

  it('begin on the first of the next month where a month lacks the day', () => {
    expect(spans('2026', '01-31')[1]).toBe('2026-Q2 2026-05-01 2026-07-30');
  });

  it('are found by a day and by their names', () => {
    expect(quarterOn('2026-04-05', '04-06')?.name).toBe('2025-Q4');
    expect(quarterOn('2026-04-06', '04-06')?.name).toBe('2026-Q1');
    expect(taxPeriod('2025-q3', '04-06')).toMatchObject({
      from: '2025-10-06',
      yearFrom: '2025-04-06',
    });
    expect(taxPeriod('2025', '04-06')).toMatchObject({ name: '2025', to: '2026-04-05' });
    expect(['2026-Q5', '2026Q1', '26-Q1', '2026-04', ''].map((name) => taxPeriod(name))).toEqual(
      Array(5).fill(undefined),
    );
  });
});
