/** Filing periods of a place, by its entries in the settings. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PlaceRate, Studio } from '../../src/book.ts';
import { addDays, yearSpan } from '../../src/number/date.ts';
import { ZERO } from '../../src/number/decimal.ts';
import { filingPeriods } from '../../src/reckon/tax/filing-periods.ts';
import { quartersOf } from '../../src/reckon/tax/tax-period.ts';
import { holds } from '../helpers/law.ts';

type Entry = Pick<PlaceRate, 'from' | 'filing'>;

/** `name: from to` of the periods of County that end in a span. */
function periodsOf(
  entries: readonly Entry[],
  span: { readonly from: string; readonly to: string },
  yearStarts?: string,
): string[] {
  const taxes = entries.map((each) => ({ place: 'County', percent: ZERO, ...each }));
  const studio = {
    ...{ file: 'studio.yaml', format: '1', name: 'A studio', currency: 'USD' },
    ...(yearStarts === undefined ? {} : { yearStarts }),
    taxes: [{ place: 'Town', percent: ZERO, from: '2020-01-01', filing: 'monthly' }, ...taxes],
  } satisfies Studio;
  return filingPeriods({ studio }, 'County', span).map(
    ({ name, from, to }) => `${name}: ${from} ${to}`,
  );
}

const YEAR = yearSpan('2025');
const SECOND_QUARTER = { from: '2025-04-01', to: '2025-06-30' };

describe('the filing periods of a place', () => {
  it('are quarters of the business year where nothing is said', () => {
    expect(periodsOf([], SECOND_QUARTER)).toEqual(['2025-Q2: 2025-04-01 2025-06-30']);
    expect(periodsOf([], { from: '2025-04-06', to: '2025-07-05' }, '04-06')).toEqual([
      '2025-Q1: 2025-04-06 2025-07-05',
    ]);
  });

  it('are months, quarters or the year of the calendar', () => {
    const said = (filing: NonNullable<Entry['filing']>) => [{ from: '2024-01-01', filing }];
    expect(periodsOf(said('monthly'), SECOND_QUARTER)).toEqual([
      '2025-04: 2025-04-01 2025-04-30',
      '2025-05: 2025-05-01 2025-05-31',
      '2025-06: 2025-06-01 2025-06-30',
    ]);
    expect(periodsOf(said('quarterly'), yearSpan('2025', '07-01'), '07-01')).toEqual([
      '2025-Q3: 2025-07-01 2025-09-30',
      '2025-Q4: 2025-10-01 2025-12-31',
      '2026-Q1: 2026-01-01 2026-03-31',
      '2026-Q2: 2026-04-01 2026-06-30',
    ]);
    expect(periodsOf(said('yearly'), SECOND_QUARTER)).toEqual([]);
    expect(periodsOf(said('yearly'), { from: '2025-10-01', to: '2025-12-31' })).toEqual([
      '2025: 2025-01-01 2025-12-31',
    ]);
  });

  it('end with the eve of a change', () => {
    const changed: Entry[] = [
      { from: '2025-01-01', filing: 'yearly' },
      { from: '2025-11-01', filing: 'monthly' },
    ];
    expect(periodsOf(changed, YEAR)).toEqual([
      '2025: 2025-01-01 2025-10-31',
      '2025-11: 2025-11-01 2025-11-30',
      '2025-12: 2025-12-01 2025-12-31',
    ]);
  });

  it('are not parted by another rate', () => {
    const rates: Entry[] = [
      { from: '2025-01-01', filing: 'quarterly' },
      { from: '2025-02-01', filing: 'quarterly' },
    ];
    expect(periodsOf(rates, { from: '2025-01-01', to: '2025-03-31' })).toEqual([
      '2025-Q1: 2025-01-01 2025-03-31',
    ]);
  });
});

describe('the filing periods of a year', () => {
  const entries = fc.uniqueArray(
    fc.record(
      {
        from: fc.nat({ max: 900 }).map((days) => addDays('2023-12-01', days)),
        filing: fc.constantFrom<NonNullable<Entry['filing']>>('monthly', 'quarterly', 'yearly'),
      },
      { requiredKeys: ['from'] },
    ),
    { maxLength: 4, selector: ({ from }) => from },
  );

  it('follow each other without a gap, and each is in one of the quarters', async () => {
    const starts = fc.constantFrom('01-01', '04-06', '07-01', '10-15');
    const property = fc.asyncProperty(entries, starts, (said, yearStarts) => {
      const year = periodsOf(said, yearSpan('2025', yearStarts), yearStarts);
      const days = year.map((text) => text.split(': ')[1]?.split(' ') ?? []);
      for (const [at, [from = '']] of days.slice(1).entries())
        expect(addDays(days[at]?.[1] ?? '', 1)).toBe(from);
      const quarters = quartersOf('2025', yearStarts).flatMap((span) =>
        periodsOf(said, span, yearStarts),
      );
      expect(quarters).toEqual(year);
      return Promise.resolve();
    });
    await holds(property, 50);
  });
});
