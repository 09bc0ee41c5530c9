/** A tax summary can be made only by a sheet that is there and sound. */
import type { Studio } from '../../book.ts';
import type { Finding } from '../../problem.ts';
import {
  BUILT_IN_SHEETS,
  isSheetFile,
  type OwnSheet,
  type SheetContent,
} from '../../read/tax-sheet.ts';
import { didYouMean, nearest } from '../../nearest.ts';
import {
  CATEGORIES,
  isExpenseLine,
  lineOfWord,
  type TaxSheet,
} from '../../reckon/tax/tax-sheet.ts';
import { builtInSheets, usualSheet } from '../sheets/named-sheet.ts';
import { typeTaxSheet } from '../sheets/tax-sheet.ts';

export const TAX_SHEET = {
  name: 'tax-sheet',
  severity: 'error',
  about:
    'The tax sheet that the settings name is not there or has faults of its own, or a category is not on a line of expenses.',
} as const;

/** What is known of a sheet's surroundings. */
interface SheetScene {
  /** The sheet that the settings name, where it is a file. */
  readonly sheet?: OwnSheet | undefined;
  /** Paths of the files that hold no records: one of them may be meant. */
  readonly files: readonly string[];
}

/** What is wrong with the sheet that the settings name, and with what they say of categories. */
export function taxSheetFaults(studio: Studio, scene: SheetScene): readonly Finding[] {
  const inSheet = sheetFaults(studio, scene);
  return [...inSheet, ...(inSheet.length > 0 ? [] : categoryFaults(studio, scene))];
}

/** Categories of the studio's own that are on no line of expenses in any year of the sheet. */
function categoryFaults(studio: Studio, { sheet }: SheetScene): Finding[] {
  const categories = Object.entries(studio.categories ?? {});
  const sheets = categories.length === 0 ? [] : sheetsMeant(studio, sheet);
  if (sheets.length === 0) return [];
  // A category that the sheet has no line for is told by the tax summary.
  const isFine = (line: string): boolean =>
    sheets.some((each) => isExpenseLine(each, lineOfWord(each, line))) ||
    (isCategory(line) && !sheets.some((each) => lineOfWord(each, line)));
  const wrong = categories.filter(([, line]) => !isFine(line));
  return wrong.map(([category, line]) => {
    const there = sheets.some((each) => lineOfWord(each, line));
    const message = there
      ? `line ${line} of the tax sheet is not a line of expenses`
      : `the tax sheet has no line ${line}, and there is no such category`;
    const hint = didYouMean(there ? undefined : nearest(line, CATEGORIES), 'write other', '');
    const { name: rule, severity } = TAX_SHEET;
    const at = { file: studio.file, path: ['categories', category] };
    return { rule, severity, at, message, hint };
  });
}

function isCategory(word: string): boolean {
  return CATEGORIES.some((category) => category === word);
}

/** The sheets that the studio's taxes go by; none where its own was not read. */
function sheetsMeant(studio: Studio, own: OwnSheet | undefined): readonly TaxSheet[] {
  const name = studio.taxSheet ?? usualSheet(studio);
  if (!isSheetFile(name)) return builtInSheets(name);
  if (own?.file !== name || !('content' in own)) return [];
  const categories = Object.keys(studio.categories ?? {});
  const typed = typeTaxSheet(own.content.root, { id: name, file: name, categories });
  return 'lines' in typed ? [typed] : [];
}

/** What is wrong with the sheet that the settings name; nothing where they name none. */
function sheetFaults(studio: Studio, { sheet, files }: SheetScene): readonly Finding[] {
  const { taxSheet: name, file } = studio;
  if (name === undefined) return [];
  const at = { file, path: ['tax-sheet'] };
  const { name: rule, severity } = TAX_SHEET;
  if (!isSheetFile(name)) {
    if (BUILT_IN_SHEETS.includes(name)) return [];
    return [{ rule, severity, at, message: `there is no tax sheet "${name}"`, hint: meant(name) }];
  }
  // Of settings that were changed after the reading the file is not known.
  if (sheet?.file !== name) return [];
  if ('content' in sheet) return faultsIn(studio, { file: name, root: sheet.content.root });
  const { findings, isThere } = sheet.unread;
  if (isThere) return findings;
  return findings.map(({ message, hint }) => {
    const near = nearest(name, files);
    const words = `the tax sheet ${name} can't be used: ${message}`;
    return { rule, severity, at, message: words, hint: didYouMean(near, hint, '') };
  });
}

function meant(name: string): string {
  const all = `there are ${BUILT_IN_SHEETS.join(', ')}, and any .yaml or .json file in the studio`;
  return didYouMean(nearest(name, BUILT_IN_SHEETS), all, '');
}

function faultsIn(
  { categories = {} }: Studio,
  { file, root }: { readonly file: string } & Pick<SheetContent, 'root'>,
): readonly Finding[] {
  const typed = typeTaxSheet(root, { id: file, file, categories: Object.keys(categories) });
  return 'lines' in typed ? [] : typed;
}
