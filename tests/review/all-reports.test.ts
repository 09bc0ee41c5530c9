/** No report of the catalogue is left out of what a review compares. */
import { describe, expect, it } from 'vitest';
import { REPORT_COMMANDS } from '../../src/commands/report-commands.ts';
import type { OptionSpec } from '../../src/commands/spec.ts';
import { quarterOn } from '../../src/reckon/tax/tax-period.ts';
import { allReports } from '../../src/review/all-reports.ts';
import { bookFrom } from '../helpers/book.ts';
import { builtIn } from '../helpers/quarter.ts';

/** Why a report has no figures for a review. */
const LEFT_OUT: Readonly<Record<string, string>> = {
  clays: 'is what tests measured of clay, and no figure of the book',
  tests: 'is the tests themselves, which a review lists as records',
  trace: 'says which records led to which, and its counts are those of pieces and sales',
  plan: 'says what is to be done, which is no figure of the book',
  weigh: 'is of an amount that somebody asks for, and of no day of the book',
};

const QUARTER = quarterOn('2026-06-30')!;
const MADE = allReports(
  { book: bookFrom({}), sheetOf: () => builtIn('us-schedule-c-2025') },
  { asOf: '2026-06-30', periods: [QUARTER] },
);

function choicesOf({ options }: { readonly options: readonly OptionSpec[] }): readonly string[] {
  const grouping = options.find(({ flags }) => /^--(?:by|overhead-by) /.test(flags));
  return grouping?.choices ?? [];
}

describe('the reports of a review', () => {
  it.each(REPORT_COMMANDS.map((command) => [command.name, command] as const))(
    '%s is among them with every grouping, or there is a reason',
    (name, command) => {
      const made = MADE.filter(({ report }) => report === name);
      expect(made.length > 0).toBe(!(name in LEFT_OUT));
      const missing = choicesOf(command).filter((choice) => !made.some(({ by }) => by === choice));
      expect(name in LEFT_OUT ? [] : missing).toEqual([]);
    },
  );

  it('each is a report of the catalogue, or the day', () => {
    const names = new Set<string>([...REPORT_COMMANDS.map(({ name }) => name), 'day']);
    expect(MADE.filter(({ report }) => !names.has(report))).toEqual([]);
  });
});
