/** The tax sheet of a year that is to be filed is there, and verified. */
import type { Book, Day, Filed, Kind } from '../../book.ts';
import { yearOf, yearSpan } from '../../number/date.ts';
import type { Finding } from '../../problem.ts';
import type { OwnSheet } from '../../read/tax-sheet.ts';
import { hasFiguresFor } from '../../reckon/tax/estimated-tax.ts';
import type { TaxSheet } from '../../reckon/tax/tax-sheet.ts';
import type { TakenFile } from '../draft.ts';
import { isSheet, namedSheet, usualSheet } from '../sheets/named-sheet.ts';

export const SHEET_YEAR = {
  name: 'sheet-year',
  severity: 'warning',
  about:
    'The tax sheet is not of the year of the newest records, or of the year before and not verified for it, and that year has no filing.',
} as const;

/** What years are told by. */
interface YearScene {
  readonly day: Day;
  /** The studio's own sheets that were read. */
  readonly own: readonly OwnSheet[];
  readonly files: readonly Pick<TakenFile, 'kind' | 'days'>[];
}

/** The kinds whose records come to something on a tax sheet. */
const FILED_KINDS: ReadonlySet<Kind> = new Set(['sales', 'spent', 'bought']);

/**
 * The newest business year with records wants a sheet; of the one before it, which is over, the sheet has
 * to be verified too. A year that was filed is done with. Records after the day of the check don't count.
 */
export function sheetYearFindings(book: Book, { day, own, files }: YearScene): readonly Finding[] {
  const { studio } = book;
  const spans = files.flatMap(({ kind, days }) => (days && FILED_KINDS.has(kind) ? [days] : []));
  const past = spans.flat().filter((each) => each <= day);
  const last = past.sort().at(-1);
  if (last === undefined) return [];
  const newest = yearOf(last, studio.yearStarts);
  const before = String(Number(newest) - 1).padStart(4, '0');
  return [newest, before].flatMap((year) => {
    const { from, to } = yearSpan(year, studio.yearStarts);
    const isUsed = spans.some(([first, end]) => first <= to && end >= from);
    if (!isUsed || isFiled(book.filed.values(), year)) return [];
    const name = studio.taxSheet ?? usualSheet(studio);
    const sheet = namedSheet(name, { studio, own, year });
    return isSheet(sheet) ? told(book, sheet, { year, isOver: year === before }) : [];
  });
}

function isFiled(filings: Iterable<Filed>, year: string): boolean {
  return [...filings].some(({ period }) => period === year);
}

function told(
  { studio: { file, taxSheet } }: Book,
  sheet: TaxSheet,
  { year, isOver }: { readonly year: string; readonly isOver: boolean },
): Finding[] {
  const fault = sheetFault(sheet, year, isOver);
  if (!fault) return [];
  const { name: rule, severity } = SHEET_YEAR;
  const at = { file, path: [taxSheet === undefined ? 'currency' : 'tax-sheet'] };
  return [{ rule, severity, at, ...fault }];
}

function sheetFault(
  sheet: TaxSheet,
  year: string,
  isOver: boolean,
): Pick<Finding, 'message' | 'hint'> | undefined {
  const { id, years = [], unverified } = sheet;
  const compare = `compare its lines and rates with the form of ${year} before you file`;
  if (!hasFiguresFor(sheet, year))
    return {
      message: `the tax sheet ${id} is for ${years.join(', ')}, and not for ${year}: lines and rates may have changed`,
      hint: `${compare}, or name a sheet of ${year} with tax-sheet`,
    };
  if (!isOver || unverified === undefined) return undefined;
  return {
    message: `the tax sheet ${id} is not verified for ${year}: ${unverified}`,
    hint: `${compare}; saggar quarter ${year} --filed records what was filed`,
  };
}
