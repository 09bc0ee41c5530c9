/** What the tax summary of version 0.1.0 had otherwise than the law has it, answer by answer; each with the reason. */
import type { Known } from './old-answers.ts';

interface LawChange {
  /** The answer's file. */
  readonly answers: RegExp;
  /** What names the row. */
  readonly rows: RegExp;
  readonly why: string;
}

const CHANGES: readonly LawChange[] = [
  {
    answers: /^quarter/,
    rows: /, estimate\.\d\./,
    why: 'estimated tax goes by the annualized method (IRS Form 2210, Schedule AI)',
  },
  {
    answers: /^quarter/,
    rows: /^note(?:s| \d+)$/,
    why: 'notes say the law of the sheet, and one mark says what of it is not verified',
  },
  {
    answers: /^quarter/,
    rows: /^Income, other-income|, line\.(?:gross-receipts|net-receipts|gross-profit|other-income|turnover)\b/,
    why: 'receipts of the trade in words are gross receipts (Schedule C, line 1; SA103S, box 9)',
  },
  {
    answers: /^quarter/,
    rows: /^Profit, (?:gross|net)-profit(?:, \d+)?$|, line\.(?:meals|expenses|tentative-profit|net-profit|none)\b/,
    why: 'half of meals is deducted (Schedule C, line 24b), so the profit of the sheet is another one',
  },
  {
    answers: /^quarter.*uk-sa103s/,
    rows: /^Cost of goods|, basis\.(?:cash|accrual|goods)\b|, line\.goods\b|^Profit, own-use-price/,
    why: 'goods are an expense when paid on the cash basis, and at their price when kept (HMRC)',
  },
  {
    answers: /^quarter.*uk-sa103s/,
    rows: /^lines, line\.(?:own-use|taxable-profit)\b|^(?:Update of|Allowance instead)/,
    why: 'boxes 27 and 28, updates and the trading allowance are new',
  },
];

/** Whether a row of an answer is another one for the law alone. */
export function isByLaw(answer: string, row: string): boolean {
  return CHANGES.some((change) => change.answers.test(answer) && change.rows.test(row));
}

/** The sheet of 2024 is marked as not verified, and that year was not filed by the program. */
const UNVERIFIED = {
  studio: 'grown-usd',
  why: 'the sheet of a year that is over and not filed is not verified',
} as const;

/** What check finds of it, and its number in day. */
export const SHEET_YEARS: readonly Known[] = [
  {
    ...UNVERIFIED,
    ...{ report: 'check.json', row: '0', column: 'finding' },
    ...{ old: 'null', new: 'sheet-year warning studio.yaml 3' },
  },
  ...[
    ['count', '0', '1'],
    ['says', '0 warnings', '1 warning'],
  ].map(([column = '', old = '', now = '']) => ({
    ...UNVERIFIED,
    ...{ report: 'day.json', row: 'problems, warnings', column, old, new: now },
  })),
];
