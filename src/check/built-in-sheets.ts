/** The names of the tax sheets that come with the program. */
import { TAX_SHEET_TITLES } from '../../schema/generated/tax-sheet-titles.js';

/** Sheets that are there for several years, one for each: the name stands for the one of the year. */
export const SHEET_FAMILIES: readonly string[] = ['us-schedule-c'];

/** Every name that a sheet of the program goes by, those of all years first. */
export const BUILT_IN_SHEETS: readonly string[] = [
  ...SHEET_FAMILIES,
  ...Object.keys(TAX_SHEET_TITLES),
];
