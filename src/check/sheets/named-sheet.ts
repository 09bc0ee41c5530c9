/** A tax sheet by its name: one that comes with the program, or a file of the studio's that was read. */
import { TAX_SHEETS } from '../../../schema/generated/tax-sheets.js';
import type { Book, Filed, Studio } from '../../book.ts';
import type { Finding } from '../../problem.ts';
import { SHEET_FAMILIES, isSheetFile, type OwnSheet } from '../../read/tax-sheet.ts';
import type { SheetOf } from '../../reckon/tax/filed.ts';
import { yearOfPeriod } from '../../reckon/tax/tax-period.ts';
import type { TaxSheet } from '../../reckon/tax/tax-sheet.ts';
import { typeTaxSheet } from './tax-sheet.ts';

/** What a name of a sheet is looked up in. */
interface SheetShelf {
  readonly studio: Studio;
  /** The studio's own sheets that were read. */
  readonly own: readonly OwnSheet[];
  /** The business year: a family's name means the sheet of the year. */
  readonly year: string;
}

/** The sheet, or all that is wrong with its file; undefined where there is none, or it was not read. */
export function namedSheet(
  name: string,
  { own, studio, year }: SheetShelf,
): TaxSheet | readonly Finding[] | undefined {
  const file = own.find((each) => each.file === name);
  if (isSheetFile(name)) return file && ownSheet(file, studio);
  const id = SHEET_FAMILIES.includes(name) ? ofYear(name, year) : name;
  const raw = Object.hasOwn(TAX_SHEETS, id) ? TAX_SHEETS[id] : undefined;
  return raw && typeTaxSheet(raw, { id, file: `${id}.yaml` });
}

/** Whether that is a sheet. */
export function isSheet(found: ReturnType<typeof namedSheet>): found is TaxSheet {
  return found !== undefined && 'lines' in found;
}

/** Looks up the sheets of a book's filings, each once. */
export function sheetsOfFilings({ studio }: Book, own: readonly OwnSheet[]): SheetOf {
  const known = new Map<string, ReturnType<typeof namedSheet>>();
  return ({ sheet, period }: Filed) => {
    const year = yearOfPeriod(period);
    const key = `${year} ${sheet}`;
    if (!known.has(key)) known.set(key, namedSheet(sheet, { studio, own, year }));
    const found = known.get(key);
    return isSheet(found) ? found : undefined;
  };
}

/** The sheet for a currency where a studio names none. */
const BY_CURRENCY: Readonly<Record<string, string>> = { USD: 'us-schedule-c', GBP: 'uk-sa103s' };

/** The name of the sheet that a studio's taxes go by, where none is asked for. */
export function usualSheet({ currency }: Pick<Studio, 'currency'>): string {
  return BY_CURRENCY[currency] ?? 'plain';
}

/** The program's sheets of that name: of a family those of all its years. */
export function builtInSheets(name: string): TaxSheet[] {
  const ids = SHEET_FAMILIES.includes(name)
    ? Object.keys(TAX_SHEETS).filter((id) => id.startsWith(`${name}-`))
    : [name];
  return ids
    .map((id) => typeTaxSheet(TAX_SHEETS[id] ?? {}, { id, file: `${id}.yaml` }))
    .filter((found): found is TaxSheet => 'lines' in found);
}

/** The family's sheet of the year, else the one of the nearest year. */
function ofYear(family: string, year: string): string {
  const ids = Object.keys(TAX_SHEETS).filter((id) => id.startsWith(`${family}-`));
  const [first = family, ...others] = ids.sort();
  const wanted = `${family}-${year}`;
  return others.reduce((found, id) => (id <= wanted ? id : found), first);
}

function ownSheet(own: OwnSheet, studio: Studio): TaxSheet | readonly Finding[] {
  const { file } = own;
  if ('unread' in own) return own.unread.findings;
  const categories = Object.keys(studio.categories ?? {});
  return typeTaxSheet(own.content.root, { id: file, file, categories });
}
