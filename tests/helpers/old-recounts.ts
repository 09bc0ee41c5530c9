/** Whole rows of the reports of version 0.1.0 that are counted otherwise since, and why. */

/** Whole rows that are counted otherwise on purpose; tests/reckon/losses.test.ts holds them. */
interface Recount {
  /** The answer's file. */
  readonly answers: RegExp;
  readonly rows: RegExp;
  readonly why: string;
}

const RECOUNTS: readonly Recount[] = [
  {
    answers: /^losses-by-cause/,
    rows: /./,
    why: 'faults are counted by cause, and as lost or seconds only what is certain',
  },
  {
    answers: /^losses-by-(recipe|maker|clay-lot)/,
    rows: /^(class and customers' ware|not glazed yet|no glaze on record), /,
    why: 'ware of no lot or without a glaze has a row, so that rows make the total',
  },
  {
    answers: /^losses-by-recipe/,
    rows: /^note/,
    why: 'refires without a glaze on record have a row, so a note says that they are apart',
  },
  {
    answers: /^galleries-(?!as-of)/,
    rows: /^note/,
    why: 'the history of a gallery says what was paid and what is owed, in two notes more',
  },
  {
    answers: /^quarter/,
    rows: /, (?:(?:opening|closing)-tax|sales-(?:taxed|untaxed|tax-back)|shipping-taxed)\./,
    why: 'taxed and untaxed sales are apart, and tax is followed until it is paid over (tests/reckon/sales-tax.test.ts)',
  },
  {
    answers: /^quarter/,
    rows: /, sales-tax\.(?:county|town)?$/,
    why: 'in the studios made at random tax was given back, which has a row of its own',
  },
];

/** Whether a row of an answer, or a note, is counted otherwise on purpose. */
export function isRecounted(answer: string, row: string): boolean {
  return RECOUNTS.some(({ answers, rows }) => answers.test(answer) && rows.test(row));
}
