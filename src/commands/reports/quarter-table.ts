/** `saggar quarter`: which tax summary is shown, by which sheet, with what git tells of the closed period. */
import type { Day } from '../../book.ts';
import { likelyPeriod } from '../../check/faults/numerals.ts';
import { ONE, decimal, type Decimal } from '../../number/decimal.ts';
import { sheetsInCommit } from '../../read/git/blobs.ts';
import { openRepository } from '../../read/git/repository.ts';
import { isSheetFile, readSheet, sheetsOnDisk, type OwnSheet } from '../../read/tax-sheet.ts';
import { flow } from '../../reckon/flow.ts';
import { isByRate, mileageRate } from '../../reckon/tax/tax-expenses.ts';
import type { TaxSheet } from '../../reckon/tax/tax-sheet.ts';
import { taxView } from '../../reckon/tax/tax-view.ts';
import { quarterOn, taxPeriod, type TaxPeriod } from '../../reckon/tax/tax-period.ts';
import type { SinceClosed } from '../../report/quarter/quarter-estimates.ts';
import { expenseChart, monthChart, paymentCharts } from '../../report/charts/tax.ts';
import { quarterTable } from '../../report/quarter/quarter.ts';
import type { Chart } from '../../report/page.ts';
import type { Table } from '../../report/table.ts';
import type { OptionsOf } from '../catalogue.ts';
import { uncomparedTexts } from './closed-since.ts';
import type { OpenedBook } from '../studio/open.ts';
import type { Report } from './show.ts';
import { chooseSheet, type ChosenSheet } from './tax-sheets.ts';
import { isRefusal, type Asked, type Refusal, type World } from '../world.ts';
import { filedIn } from './filed.ts';

type QuarterOptions = Partial<OptionsOf<'quarter'>>;

/** The tax summary of a quarter, by default the one that the day is in, or of a year, by the studio's own sheet. */
export const plainQuarter: Report<OptionsOf<'quarter'>> = {
  table: (opened, asked) => summaryOf(opened, asked, { own: ownOf(opened.sheet) }),
  charts: (opened, asked, table) => [
    ...chartsOf(opened, asked, ownOf(opened.sheet)),
    ...paymentCharts(table),
  ],
};

/** Of the business year up to the end of the quarter, on the basis and by the sheet that is asked for. */
function chartsOf(
  { book, asOf }: OpenedBook,
  { argument, options: { basis, sheet: named } }: Asked<QuarterOptions>,
  own: readonly OwnSheet[],
): readonly Chart[] {
  const period = askedPeriod({ book, asOf }, { argument });
  if (isRefusal(period)) return [];
  const studio = basis === undefined ? book.studio : { ...book.studio, basis };
  const chosen = chooseSheet({ own, studio, named, year: period.year });
  if (isRefusal(chosen)) return [];
  const view = { ...taxView({ ...book, studio }, flow(book, asOf)), sheet: chosen.sheet };
  const yearToDate = { from: period.yearFrom, to: period.to };
  return [monthChart(view, yearToDate), expenseChart(view, yearToDate)];
}

/**
 * The same by whatever sheet is asked for, with what git tells of the closed period: which of its
 * records are not as they were.
 */
export function quarterReport(world: World): Report<OptionsOf<'quarter'>> {
  return {
    ...plainQuarter,
    table: async (opened, asked) => {
      const since = opened.commit === undefined ? await changesIn(opened, world) : {};
      const own = await sheetsFor(opened, asked.options, world);
      return summaryOf(opened, asked, { ...since, own });
    },
    charts: async (opened, asked, table) => [
      ...chartsOf(opened, asked, await sheetsFor(opened, asked.options, world)),
      ...paymentCharts(table),
    ],
  };
}

async function sheetsFor(
  opened: OpenedBook,
  options: QuarterOptions,
  world: World,
): Promise<OwnSheet[]> {
  return [...(await askedSheet(opened, options, world)), ...ownOf(opened.sheet)];
}

/** The sheet of a period: the one that is asked for, else the studio's, else that for its currency. */
export async function chosenSheet(
  opened: OpenedBook,
  options: QuarterOptions,
  { world, period }: { readonly world: World; readonly period: TaxPeriod },
): Promise<ChosenSheet | Refusal> {
  const own = await sheetsFor(opened, options, world);
  const { studio } = opened.book;
  return chooseSheet({ own, studio, named: options.sheet, year: period.year });
}

function ownOf(sheet: OwnSheet | undefined): OwnSheet[] {
  return sheet ? [sheet] : [];
}

/** The studio's own sheet of `--sheet`, from the same state of the studio as the book. */
async function askedSheet(
  { folder, commit }: OpenedBook,
  { sheet: named }: QuarterOptions,
  { environment }: World,
): Promise<OwnSheet[]> {
  if (named === undefined || !isSheetFile(named)) return [];
  if (!commit) return [await readSheet(named, sheetsOnDisk(folder))];
  const repository = openRepository(folder, environment);
  return isRefusal(repository) ? [] : [await readSheet(named, sheetsInCommit(repository, commit))];
}

async function changesIn({ folder, book }: OpenedBook, world: World): Promise<SinceClosed> {
  const { closedPeriodChanges } = await import('./closed-since.ts');
  const { changes, uncompared } = await closedPeriodChanges(folder, book, world);
  const changedSinceClosed = changes.map(({ change: { id, became, fields } }) => {
    const names = new Set(fields.map(({ path }) => String(path[0])));
    const what = became === 'changed' && names.size > 0 ? `: ${[...names].join(', ')}` : '';
    return { id, words: `${became} since${what}` };
  });
  return { changedSinceClosed, uncompared: uncomparedTexts(uncompared) };
}

function summaryOf(
  opened: OpenedBook,
  { argument, options }: Asked<QuarterOptions>,
  { own, ...since }: SinceClosed & { readonly own: readonly OwnSheet[] },
): Table | Refusal {
  const { book, asOf } = opened;
  const period = askedPeriod(opened, { argument });
  if (isRefusal(period)) return period;
  const { basis, sheet: named } = options;
  const taxRate = askedRate(options.taxRate);
  if (taxRate && 'refused' in taxRate) return taxRate;
  const chosen = chooseSheet({ own, studio: book.studio, named, year: period.year });
  if (isRefusal(chosen)) return chosen;
  const { sheet, words: sheetWords } = chosen;
  const refusal = withoutRate(opened, sheet, period);
  if (refusal) return refusal;
  const sheetBefore = sheetOfYearBefore(opened, { own, named, year: period.year });
  const filed = filedIn(opened).filter((each) => each.period.name === period.name);
  const asked = { period, sheet, sheetBefore, sheetWords, basis, taxRate, ...since, filed };
  return quarterTable(book, flow(book, asOf), asked);
}

/** Where the rate for the distance is deducted, another year's would make a wrong profit. */
export function withoutRate(
  { book }: Pick<OpenedBook, 'book'>,
  sheet: TaxSheet,
  { year, yearFrom }: TaxPeriod,
): Refusal | undefined {
  if (!isByRate(book, yearFrom) || mileageRate(sheet, year)?.rates.length) return undefined;
  return {
    refused: `studio.yaml says car: mileage, and the sheet ${sheet.id} has no rate for ${year}: name a sheet that has one with --sheet, or write car: actual`,
  };
}

/** The sheet of the year before; undefined where there is none for just that year. */
export function sheetOfYearBefore(
  { book: { studio } }: Pick<OpenedBook, 'book'>,
  { own, named, year }: Pick<Parameters<typeof chooseSheet>[0], 'own' | 'named' | 'year'>,
): TaxSheet | undefined {
  const before = String(Number(year) - 1).padStart(4, '0');
  const chosen = chooseSheet({ own, studio, named, year: before });
  return isRefusal(chosen) ? undefined : chosen.sheet;
}

/** The quarter or year that is named, else the quarter that the day is in. */
export function askedPeriod(
  { book, asOf }: Pick<OpenedBook, 'book' | 'asOf'>,
  { argument }: Pick<Asked, 'argument'>,
): TaxPeriod | Refusal {
  const { yearStarts } = book.studio;
  const period =
    argument === undefined ? quarterOn(asOf, yearStarts) : taxPeriod(argument, yearStarts);
  if (!period) return unknownPeriod(argument ?? asOf, asOf);
  if (period.from <= asOf) return period;
  return {
    refused: `${period.name} starts on ${period.from}, after ${asOf}, the day that is looked at`,
  };
}

const PERCENT = /^(\d{1,3}(?:\.\d{1,8})?)%?$/;
const ONE_PERCENT = decimal('0.01');

function askedRate(text: string | undefined): Decimal | Refusal | undefined {
  if (text === undefined) return undefined;
  const number = PERCENT.exec(text)?.[1];
  const rate = number === undefined ? undefined : decimal(number).times(ONE_PERCENT);
  if (rate?.lte(ONE)) return rate;
  return { refused: `--tax-rate takes a percentage from 0 to 100, such as 22, and not "${text}"` };
}

function unknownPeriod(word: string, asOf: Day): Refusal {
  const isBare = /^q?[1-4]$/i.test(word);
  const meant = likelyPeriod(isBare ? `${asOf.slice(0, 4)} Q${word.slice(-1)}` : word);
  const hint = meant === undefined || meant === word ? '' : `; did you mean ${meant}?`;
  return { refused: `a quarter is named 2026-Q2, a year 2026, and not "${word}"${hint}` };
}
