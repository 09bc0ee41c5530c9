/** Which tax sheet a summary is made by: one that comes with the program, or a file of the studio's. */
import { TAX_SHEETS } from '../../schema/generated/tax-sheets.js';
import type { Studio } from '../book.ts';
import { nearest } from '../check/nearest.ts';
import { typeTaxSheet } from '../check/tax-sheet.ts';
import type { Finding } from '../problem.ts';
import { isSheetFile } from '../read/sheet-state.ts';
import { readSheetFile } from '../read/tax-sheet.ts';
import type { TaxSheet } from '../reckon/tax-sheet.ts';
import { isRefusal, type Refusal } from './world.ts';

/** A sheet with a note on why it was taken, where nobody named it. */
export interface ChosenSheet {
  readonly sheet: TaxSheet;
  readonly words?: string;
}

/** What a sheet is for: its family's name stands for the sheet of the year. */
export interface SheetAsked {
  readonly folder: string;
  readonly studio: Studio;
  readonly named: string | undefined;
  /** The business year. */
  readonly year: string;
}

/** Sheets that are there for several years, one for each. */
const FAMILIES = ['us-schedule-c'];

/** The sheet for a currency where a studio names none. */
const BY_CURRENCY: Readonly<Record<string, string>> = { USD: 'us-schedule-c', GBP: 'uk-sa103s' };

/** Names of the sheets that come with the program, those of all years first. */
export function builtInSheets(): string[] {
  return [...FAMILIES, ...Object.keys(TAX_SHEETS).sort()];
}

/** The sheet that is named, else the studio's, else the one for its currency. */
export function chooseSheet(asked: SheetAsked): ChosenSheet | Refusal {
  const { studio, named = studio.taxSheet } = asked;
  if (named !== undefined) {
    const sheet = sheetNamed(named, asked);
    return isRefusal(sheet) ? sheet : { sheet };
  }
  const id = BY_CURRENCY[studio.currency] ?? 'plain';
  const sheet = sheetNamed(id, asked);
  if (isRefusal(sheet)) return sheet;
  const words = `The sheet is ${sheet.id}, for the currency is ${studio.currency}: choose another with --sheet, or with tax-sheet in studio.yaml.`;
  return { sheet, words };
}

function sheetNamed(name: string, { folder, studio, year }: SheetAsked): TaxSheet | Refusal {
  if (isSheetFile(name)) return ownSheet(folder, name, studio);
  const id = FAMILIES.includes(name) ? ofYear(name, year) : name;
  const raw = Object.hasOwn(TAX_SHEETS, id) ? TAX_SHEETS[id] : undefined;
  if (!raw) return unknownSheet(name);
  const sheet = typeTaxSheet(raw, { id, file: `${id}.yaml` });
  return 'lines' in sheet ? sheet : { refused: `the sheet ${id} of the program is not whole` };
}

/** The family's sheet of the year, else the one of the nearest year. */
function ofYear(family: string, year: string): string {
  const ids = Object.keys(TAX_SHEETS).filter((id) => id.startsWith(`${family}-`));
  const [first = family, ...others] = ids.sort();
  const wanted = `${family}-${year}`;
  return others.reduce((found, id) => (id <= wanted ? id : found), first);
}

function ownSheet(folder: string, file: string, studio: Studio): TaxSheet | Refusal {
  const read = readSheetFile(folder, file);
  if (!('root' in read)) return unusable(file, read);
  const categories = Object.keys(studio.categories ?? {});
  const sheet = typeTaxSheet(read.root, { id: file, file, categories });
  return 'lines' in sheet ? sheet : unusable(file, read.located(sheet));
}

function unusable(file: string, findings: readonly Finding[]): Refusal {
  const more = findings.map(({ at, message, hint }) => {
    const place = 'line' in at ? `${at.line}:${at.column}` : at.path.join(' ');
    return `  ${file}:${place} ${message}; ${hint}`;
  });
  return { refused: `the tax sheet ${file} can't be used:`, more };
}

function unknownSheet(name: string): Refusal {
  const known = builtInSheets();
  const near = nearest(name, known);
  const hint = near === undefined ? '' : ` (did you mean ${near}?)`;
  return {
    refused: `there is no tax sheet "${name}"${hint}; there are ${known.join(', ')}, and any .yaml or .json file in the studio`,
  };
}
