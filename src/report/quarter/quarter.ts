/** The tax summary of a quarter or a year: all that a preparer asks for, part by part. */
import type { Book } from '../../book.ts';
import type { Decimal } from '../../number/decimal.ts';
import { estimatesIn, type Estimate } from '../../reckon/tax/estimated-tax.ts';
import type { FiledPeriod } from '../../reckon/tax/filed.ts';
import type { Basis } from '../../reckon/sales/income-fact.ts';
import type { Span } from '../../number/date.ts';
import { basisDifferences } from '../../reckon/tax/tax-bases.ts';
import { isByRate, mileageIn, mileageRate } from '../../reckon/tax/tax-expenses.ts';
import { taxGaps } from '../../reckon/tax/tax-gaps.ts';
import { processedIn } from '../../reckon/tax/processed.ts';
import { taxByPlace, taxReturns } from '../../reckon/tax/sales-tax.ts';
import type { TaxPeriod } from '../../reckon/tax/tax-period.ts';
import { taxAccount } from '../../reckon/tax/tax-profit.ts';
import { lineFor, type TaxSheet } from '../../reckon/tax/tax-sheet.ts';
import { taxView, type TaxAmount, type TaxView } from '../../reckon/tax/tax-view.ts';
import { tableHead } from '../head.ts';
import { closedPart, estimateParts, type SinceClosed } from './quarter-estimates.ts';
import { costBrought, goodsPart } from './quarter-goods.ts';
import { filedColumns, filedNotes, filedParts, quarterNotes } from './quarter-notes.ts';
import {
  type Accounts,
  type LineOf,
  type QuarterPart,
  expensePart,
  incomePart,
  leadsOf,
  profitPart,
  tableRow,
} from './quarter-rows.ts';
import { amountName } from './tax-words.ts';
import { processedParts, returnParts } from './quarter-returns.ts';
import { salesTaxPart } from './quarter-sales-tax.ts';
import { lastingPart, questionsPart, selfEmploymentPart } from './quarter-filing.ts';
import { formParts, lineFigures } from './quarter-form.ts';
import { allowancePart, limitNote, payeesPart, updatePart } from './quarter-law.ts';
import { basesPart, drivingPart, gapsPart } from './quarter-sheet.ts';
import { quarterAlerts, quarterVerdict } from '../verdicts/quarter.ts';
import type { Column, Table } from '../table.ts';
import type { Flows } from '../../reckon/flows.ts';

/** What is asked of the tax summary. */
interface QuarterAsked extends SinceClosed {
  readonly period: TaxPeriod;
  readonly sheet: TaxSheet;
  /** The sheet of the year before, whose last payment is due in this one. */
  readonly sheetBefore?: TaxSheet | undefined;
  /** Why that sheet, where nobody named it. */
  readonly sheetWords?: string | undefined;
  /** Absent means the studio's. */
  readonly basis?: Basis | undefined;
  /** One's own rate of income tax as a fraction of 1; absent means the studio's, or none. */
  readonly taxRate?: Decimal | undefined;
  /** What was filed for the period, on the studio's own basis. */
  readonly filed?: readonly FiledPeriod[];
}

/** Of a whole year both figures are the same, so people see one. */
function columnsFor({ period: { name, year }, filed = [] }: QuarterAsked): Column[] {
  return [
    { key: 'part', title: 'Part', type: 'text' },
    { key: 'item', title: 'Item', type: 'text', dataOnly: true },
    { key: 'name', title: '', type: 'text' },
    { key: 'amount', title: name, type: 'money' },
    {
      key: 'toDate',
      title: 'To date',
      type: 'money',
      ...(name === year ? { dataOnly: true } : {}),
    },
    ...filedColumns(filed),
    { key: 'sheetLine', title: 'Line', type: 'text' },
  ];
}

/**
 * The summary: first what is filled in and asked for (the sheet's lines, estimated tax, what is missing, both
 * bases, returns), then what that is made of (income, sales tax, expenses, cost of goods sold, profit,
 * driving), what was filed, and what is closed. Amounts are in whole minor units, and the quarters of a year
 * add up to it. It is a summary for a preparer, never advice.
 */
export function quarterTable(book: Book, flows: Flows, asked: QuarterAsked): Table {
  const view = { ...taxView(book, flows, asked.basis), sheet: asked.sheet };
  const filed = { filed: asked.filed ?? [], basis: book.studio.basis ?? 'cash' };
  const estimates = estimatesIn(view, { ...asked, rate: rateOf(book, asked) });
  const context = { book, view, asked, estimates };
  const accounts = accountsOn(context, view.basis);
  const parts = [
    ...quarterParts(context, accounts),
    ...filedParts(filed),
    ...closed(book, asked),
  ].filter(({ rows }) => rows.length > 0);
  const { name, from, to } = asked.period;
  const head = tableHead(book, view.asOf);
  const rows = parts.flatMap((each) => each.rows.map((row) => tableRow(each.part, row)));
  return {
    report: 'quarter',
    title: `Tax summary ${name}, ${from} to ${to}, ${view.basis} basis`,
    ...head,
    columns: columnsFor(asked),
    rows,
    verdict: quarterVerdict({ ...head, ...filed, rows, estimates }),
    alerts: quarterAlerts(rows),
    notes: [
      ...filedNotes(filed, view.basis),
      ...quarterNotes(view, {
        ...asked,
        taxRate: rateOf(book, asked),
        limitWords: limitNote(book, accounts, asked.sheet),
      }),
    ],
    partedBy: 'part',
    leavesOutZeros: true,
    notesFirst: true,
    ...leadsOf(parts),
  };
}

interface QuarterContext {
  readonly book: Book;
  readonly view: TaxView;
  readonly asked: QuarterAsked;
  readonly estimates: readonly Estimate[];
}

function quarterParts(context: QuarterContext, accounts: Accounts): QuarterPart[] {
  const { book, view, asked, estimates } = context;
  const { period, sheet } = asked;
  const { categories } = book.studio;
  const spans = spansOf(period);
  const on = (basis: Basis): Accounts =>
    basis === view.basis ? accounts : accountsOn(context, basis);
  const [cash, accrual] = [on('cash'), on('accrual')];
  const lineOf: LineOf = (amount) => lineFor(sheet, amount, categories)?.number;
  const naming = { nameOf: (amount: TaxAmount) => amountName(book, amount), lineOf };
  const rate = rateOf(book, asked);
  const rates = mileageRate(sheet, period.year);
  const driving = {
    mileage: rates && mileageIn(view, period, rates),
    unit: rates?.unit ?? 'mi',
    isByRate: isByRate(book, period.yearFrom),
  };
  const isWhole = period.name === period.year;
  const { mileage } = driving;
  return [
    ...formParts(accounts, { book, sheet, mileage, basis: view.basis, isWhole }),
    ...(isWhole ? [selfEmploymentPart(book, accounts, sheet)] : []),
    ...estimateParts(estimates, { rate, sheet }),
    lastingPart(view, accounts, sheet),
    payeesPart(view, period, sheet),
    updatePart(book, accounts, { sheet, period }),
    allowancePart(book, accounts, sheet),
    ...(isWhole ? [questionsPart(sheet)] : []),
    gapsPart(book, taxGaps(view, period, sheet)),
    basesPart(cash, accrual, {
      differences: [
        basisDifferences(view, { cash: cash[0], accrual: accrual[0] }),
        basisDifferences(view, { cash: cash[1], accrual: accrual[1] }),
      ],
      shown: view.basis,
      costOf: (account) => costBrought(view, account),
    }),
    ...returnParts(taxReturns(view, spans[0])),
    ...(isWhole ? processedParts(book, processedIn(view, spans[0])) : []),
    incomePart(accounts, naming),
    salesTaxPart(taxByPlace(view, spans[0]), taxByPlace(view, spans[1])),
    expensePart(accounts, naming),
    goodsPart({ book, asOf: view.asOf }, accounts, lineOf),
    profitPart(accounts, lineFigures(accounts, book, sheet)),
    drivingPart(accounts, driving),
  ];
}

function closed({ studio }: Book, asked: QuarterAsked): QuarterPart[] {
  return [closedPart(asked.period, studio.closedThrough, asked)];
}

function accountsOn({ view, asked }: QuarterContext, basis: Basis): Accounts {
  const [period, year] = spansOf(asked.period);
  const on = { ...view, basis };
  // The year first: what it takes to reckon it is enough for the period in it.
  const ofYear = taxAccount(on, year);
  return [taxAccount(on, period), ofYear];
}

function spansOf({ from, to, yearFrom }: TaxPeriod): readonly [Span, Span] {
  return [
    { from, to },
    { from: yearFrom, to },
  ];
}

function rateOf(book: Book, { taxRate }: QuarterAsked): Decimal | undefined {
  return taxRate ?? book.studio.incomeTaxRate;
}
