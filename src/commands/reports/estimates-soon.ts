/** Estimated tax that is due soon, in a book that was opened: by the sheet of its year. */
import { addDays, yearOf, yearSpan } from '../../number/date.ts';
import { flow } from '../../reckon/flow.ts';
import { datesOf, estimatesIn, type Estimate } from '../../reckon/tax/estimated-tax.ts';
import type { TaxSheet } from '../../reckon/tax/tax-sheet.ts';
import { taxView } from '../../reckon/tax/tax-view.ts';
import type { OpenedBook } from '../studio/open.ts';
import { isRefusal } from '../world.ts';
import { sheetOfYearBefore } from './quarter-table.ts';
import { chooseSheet } from './tax-sheets.ts';

const DAYS_AHEAD = 14;

/** None where no payment is due in two weeks: nothing is reckoned then. */
export function estimatesSoon(opened: OpenedBook): readonly Estimate[] {
  const { book, asOf, sheet: read } = opened;
  const own = read ? [read] : [];
  const year = yearOf(asOf, book.studio.yearStarts);
  const chosen = chooseSheet({ own, studio: book.studio, named: undefined, year });
  if (isRefusal(chosen)) return [];
  const { sheet } = chosen;
  const sheetBefore = sheetOfYearBefore(opened, { own, named: undefined, year });
  const last = addDays(asOf, DAYS_AHEAD);
  const dues = [...duesOf(sheet, year), ...duesOf(sheetBefore, String(Number(year) - 1))];
  if (!dues.some((due) => due >= asOf && due <= last)) return [];
  const period = { ...yearSpan(year, book.studio.yearStarts), year };
  const rate = book.studio.incomeTaxRate;
  return estimatesIn(taxView(book, flow(book, asOf)), { period, sheet, sheetBefore, rate });
}

function duesOf(sheet: TaxSheet | undefined, year: string): string[] {
  return (sheet?.estimates?.periods ?? []).map((period) => datesOf(period, year).due);
}
