/** The rules on filings: they look at tax sheets beside the book, so they are not run with the others. */
import type { Book } from '../book.ts';
import type { Finding } from '../problem.ts';
import { sheetsOfFilings } from './named-sheet.ts';
import { FILED_DIFFERS, filedDiffers } from './rules/filed-differs.ts';
import {
  FILING_UNFIT,
  faultsInFiledSheets,
  unfitFilings,
  type FilingScene,
} from './rules/filing-unfit.ts';
import type { RuleFinding } from './finding.ts';

/** What is wrong with the filings of a book, and which of them are no longer what the book comes to. */
export function filingFindings(
  book: Book,
  looked: Omit<FilingScene, 'sheetOf'>,
): readonly Finding[] {
  if (book.filed.size === 0) return [];
  const scene = { ...looked, sheetOf: sheetsOfFilings(book, looked.own) };
  return [
    ...ofRule(FILING_UNFIT, unfitFilings(book, scene)),
    ...faultsInFiledSheets(book, scene),
    ...ofRule(FILED_DIFFERS, filedDiffers(book, scene)),
  ];
}

function ofRule(
  { name, severity }: Pick<typeof FILING_UNFIT | typeof FILED_DIFFERS, 'name' | 'severity'>,
  found: readonly RuleFinding[],
): Finding[] {
  return found.map((each) => ({ rule: name, severity, ...each }));
}
