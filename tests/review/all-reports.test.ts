/** No report of the catalogue is left out of what a review compares. */
import { describe, expect, it } from 'vitest';
import { REPORT_COMMANDS } from '../../src/commands/report-commands.ts';
import { OF_ANY_TIME } from '../../src/commands/options.ts';
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
  match: 'holds the book against a list from outside, whose records it has already',
  weigh: 'is of an amount that somebody asks for, and of no day of the book',
};

/** Options by which a report shows other figures, each compared, or left out for a reason. */
const COMPARED: ReadonlySet<string> = new Set([
  '--by',
  '--overhead-by',
  '--where',
  '--basis',
  '--all',
  '--year',
  '--from',
  '--to',
]);
const OPTION_LEFT_OUT: Readonly<Record<string, string>> = {
  '--window': 'measures the same use over other days',
  '--chart': 'has the counts and rates of losses by time',
  '--sheet':
    'puts the same amounts on other lines; the sheet of the studio and those filed by are compared',
  '--tax-rate': 'is a rate that somebody asks about',
  '--filed': 'writes a record',
  '--on': 'writes a record',
  '--dry-run': 'writes nothing',
  '--bring': 'has the counts of what is sold at fairs, laid out for the next one',
  '--history': 'is of the records of one gallery, each told where it is another',
};

const QUARTER = quarterOn('2026-06-30')!;
const MADE = allReports(
  { book: bookFrom({}), sheetOf: () => builtIn('us-schedule-c-2025'), ownSheets: new Map() },
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

  it.each(REPORT_COMMANDS.filter(({ name }) => !(name in LEFT_OUT)))(
    'of $name every option that changes figures is compared, or there is a reason',
    ({ options }) => {
      const common = new Set<string>(OF_ANY_TIME.map(({ flags }) => flags));
      const own = options
        .filter(({ flags }) => !common.has(flags))
        .map(({ flags }) => flags.replace(/ .*/, ''));
      expect(own.filter((flag) => !COMPARED.has(flag) && !(flag in OPTION_LEFT_OUT))).toEqual([]);
    },
  );

  it('each is a report of the catalogue, or the day', () => {
    const names = new Set<string>([...REPORT_COMMANDS.map(({ name }) => name), 'day']);
    expect(MADE.filter(({ report }) => !names.has(report))).toEqual([]);
  });
});
