/** The rules that look at more than the book: at files, their form and their fields, at tax sheets. */
import type { Rule } from './rule.ts';
import { DUPLICATE_ID } from './rules/duplicate-id.ts';
import { FILED_DIFFERS } from './rules/filed-differs.ts';
import { FILING_UNFIT } from './rules/filing-unfit.ts';
import { STRAY_FILE } from './rules/stray-file.ts';
import { TAX_SHEET } from './rules/tax-sheet.ts';

/** What the docs say of a rule. */
export type RuleText = Pick<Rule, 'name' | 'severity' | 'about'>;

/** Rules of reading, of the schemas and of tax sheets, by name. */
export const READER_RULES: readonly RuleText[] = [
  DUPLICATE_ID,
  FILED_DIFFERS,
  FILING_UNFIT,
  {
    name: 'merge-conflict',
    severity: 'error',
    about: 'Two versions of some lines meet after a merge, and which of them holds is not settled.',
  },
  {
    name: 'needs-quotes',
    severity: 'error',
    about: 'A text stands without quotes where other readers of the file would change it.',
  },
  {
    name: 'number-form',
    severity: 'error',
    about: 'A number is written in a form that other readers of the file would take for another.',
  },
  {
    name: 'schema',
    severity: 'error',
    about: 'A field is missing, unknown, of the wrong form or not one of the words that go there.',
  },
  STRAY_FILE,
  TAX_SHEET,
  {
    name: 'unreadable-file',
    severity: 'error',
    about: 'A file or folder could not be read, is too large, or leads out of the studio.',
  },
  {
    name: 'yaml-error',
    severity: 'error',
    about: 'A file is not the plain YAML that a studio is kept in.',
  },
];
