import { describe, expect, it } from 'vitest';
import { legalHolidays, nextBusinessDay } from '../../src/reckon/tax/tax-days.ts';

// From memory: the calendars of federal holidays of the US Office of Personnel Management, and
// Emancipation Day of the District of Columbia as the IRS has observed it.
const OBSERVED: Readonly<Record<number, string>> = {
  2021: '01-01 01-18 01-20 02-15 04-16 05-31 06-18 07-05 09-06 10-11 11-11 11-25 12-24 12-31',
  2022: '01-17 02-21 04-15 05-30 06-20 07-04 09-05 10-10 11-11 11-24 12-26',
  2023: '01-02 01-16 02-20 04-17 05-29 06-19 07-04 09-04 10-09 11-10 11-23 12-25',
  2024: '01-01 01-15 02-19 04-16 05-27 06-19 07-04 09-02 10-14 11-11 11-28 12-25',
  2025: '01-01 01-20 02-17 04-16 05-26 06-19 07-04 09-01 10-13 11-11 11-27 12-25',
  2026: '01-01 01-19 02-16 04-16 05-25 06-19 07-03 09-07 10-12 11-11 11-26 12-25',
  2027: '01-01 01-18 02-15 04-16 05-31 06-18 07-05 09-06 10-11 11-11 11-25 12-24 12-31',
};

describe('legal holidays', () => {
  it.each(Object.entries(OBSERVED))('of %s', (year, days) => {
    const found = legalHolidays(Number(year)).map(({ day }) => day);
    expect([...new Set(found)]).toEqual(days.split(' ').map((day) => `${year}-${day}`));
  });

  it('are not older than the laws that made them', () => {
    const names = (year: number): string[] => legalHolidays(year).map(({ name }) => name);
    expect(names(2020)).not.toContain('Juneteenth');
    expect(names(2006)).not.toContain('Emancipation Day');
  });
});

// IRS Form 1040-ES of those years; 2025 and 2026 as printed, the others from memory.
describe('the day on which estimated tax is due', () => {
  it.each([
    ['2022-04-15', '2022-04-18'],
    ['2023-01-15', '2023-01-17'],
    ['2023-04-15', '2023-04-18'],
    ['2024-01-15', '2024-01-16'],
    ['2024-04-15', '2024-04-15'],
    ['2024-06-15', '2024-06-17'],
    ['2024-09-15', '2024-09-16'],
    ['2025-04-15', '2025-04-15'],
    ['2025-06-15', '2025-06-16'],
    ['2025-09-15', '2025-09-15'],
    ['2026-01-15', '2026-01-15'],
    ['2026-06-15', '2026-06-15'],
    ['2027-01-15', '2027-01-15'],
  ])('%s is %s', (day, due) => {
    expect(nextBusinessDay(day)).toBe(due);
  });
});
