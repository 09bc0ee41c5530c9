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
import { typeTaxSheet } from '../sheets/tax-sheet.ts';

export const TAX_SHEET = {
  name: 'tax-sheet',
  severity: 'error',
  about: 'The tax sheet that the settings name is not there, or has faults of its own.',
} as const;

/** What is known of a sheet's surroundings. */
interface SheetScene {
  /** The sheet that the settings name, where it is a file. */
  readonly sheet?: OwnSheet | undefined;
  /** Paths of the files that hold no records: one of them may be meant. */
  readonly files: readonly string[];
}

/** What is wrong with the sheet that the settings name; nothing where they name none. */
export function taxSheetFaults(studio: Studio, { sheet, files }: SheetScene): readonly Finding[] {
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
