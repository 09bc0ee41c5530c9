/** Which tax sheet a summary is made by: one that comes with the program, or a file of the studio's. */
import type { Studio } from '../../book.ts';
import { isSheet, namedSheet, usualSheet } from '../../check/sheets/named-sheet.ts';
import { nearest } from '../../nearest.ts';
import type { Finding } from '../../problem.ts';
import { placesIn } from '../../read/yaml/spots.ts';
import { BUILT_IN_SHEETS, type OwnSheet, type SheetContent } from '../../read/tax-sheet.ts';
import type { TaxSheet } from '../../reckon/tax/tax-sheet.ts';
import type { OpenedBook } from '../studio/open.ts';
import { isRefusal, type Refusal } from '../world.ts';

/** A sheet with a note on why it was taken, where nobody named it. */
export interface ChosenSheet {
  readonly sheet: TaxSheet;
  readonly words?: string | undefined;
}

/** What a sheet is for: its family's name stands for the sheet of the year. */
interface SheetAsked {
  readonly studio: Studio;
  /** The studio's own sheets that were read, whichever of them is meant. */
  readonly own: readonly OwnSheet[];
  readonly named: string | undefined;
  /** The business year. */
  readonly year: string;
}

/** The sheet that is named, else the studio's, else the one for its currency. */
export function chooseSheet(asked: SheetAsked): ChosenSheet | Refusal {
  const { studio, named = studio.taxSheet } = asked;
  if (named !== undefined) {
    const sheet = sheetNamed(named, asked);
    return isRefusal(sheet) ? sheet : { sheet };
  }
  const id = usualSheet(studio);
  const sheet = sheetNamed(id, asked);
  if (isRefusal(sheet)) return sheet;
  const words = `The sheet is ${sheet.id}, for the currency is ${studio.currency}: choose another with --sheet, or with tax-sheet in studio.yaml.`;
  return { sheet, words };
}

/** The sheet that the studio's own figures of a year go by; undefined where it can't be used. */
export function usedSheet(
  { book: { studio }, sheet }: Pick<OpenedBook, 'book' | 'sheet'>,
  year: string,
): TaxSheet | undefined {
  const chosen = chooseSheet({ studio, own: sheet ? [sheet] : [], named: undefined, year });
  return isRefusal(chosen) ? undefined : chosen.sheet;
}

function sheetNamed(name: string, asked: SheetAsked): TaxSheet | Refusal {
  const found = namedSheet(name, asked);
  if (!found) return unknownSheet(name);
  if (isSheet(found)) return found;
  const file = asked.own.find((each) => each.file === name);
  if (!file) return { refused: `the sheet ${name} of the program is not whole` };
  return unusable(name, 'content' in file ? inPlace(found, name, file.content) : found);
}

function inPlace(
  findings: readonly Finding[],
  file: string,
  { text }: Pick<SheetContent, 'text'>,
): readonly Finding[] {
  const placeOf = placesIn(file, text);
  return findings.map((each) => ('path' in each.at ? { ...each, at: placeOf(each.at) } : each));
}

function unusable(file: string, findings: readonly Finding[]): Refusal {
  const more = findings.map(({ at, message, hint }) => {
    const place = 'line' in at ? `${at.line}:${at.column}` : at.path.join(' ');
    return `  ${file}:${place} ${message}; ${hint}`;
  });
  return { refused: `the tax sheet ${file} can't be used:`, more };
}

function unknownSheet(name: string): Refusal {
  const near = nearest(name, BUILT_IN_SHEETS);
  const hint = near === undefined ? '' : ` (did you mean ${near}?)`;
  return {
    refused: `there is no tax sheet "${name}"${hint}; there are ${BUILT_IN_SHEETS.join(', ')}, and any .yaml or .json file in the studio`,
  };
}
