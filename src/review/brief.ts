/** What a change does to money, to stock and to what was filed: three sentences to be read alone. */
import { listed } from '../check/finding.ts';
import { grouped } from '../grouping.ts';
import { counted } from '../in-words.ts';
import { signedText, sizeOfMove, type Consequence } from './figures.ts';
import type { FilingMove } from './filed.ts';
import { quarterName, type MovedPeriod } from './closed/moved-periods.ts';
import { FIGURE, countsWare } from './shown-figures.ts';

/** What the sentences rest on. */
interface BriefGrounds {
  readonly consequences: readonly Consequence[];
  readonly periods: readonly MovedPeriod[];
  readonly filings: readonly FilingMove[];
  readonly minorDigits: number;
  /** Whether amounts are kept from the eyes of others. */
  readonly isHidden: boolean;
  /** Whether all quarters that were compared have a tax summary. */
  readonly isSummed: boolean;
  /** Whether the quarters are of the same days as before. */
  readonly isSameYear: boolean;
}

/** The sentences, a line each. */
export function briefOf(grounds: BriefGrounds): readonly string[] {
  const said = {
    Money: moneyWords(grounds),
    Stock: stockWords(grounds),
    Filed: filedWords(grounds),
  };
  return Object.entries(said).map(([what, words]) => `${what}: ${words}.`);
}

const UNCHANGED = 'unchanged';

function moneyWords(grounds: BriefGrounds): string {
  const { consequences, minorDigits, isHidden, isSummed, isSameYear } = grounds;
  const [currency] = ofFigure(consequences, FIGURE.currency);
  if (currency)
    return `every amount would be ${textOf(currency.after)} and not ${textOf(currency.before)}; none is converted`;
  if (isHidden) return 'not shown';
  if (!isSameYear) return 'quarters are of other days, so none compares with what it was';
  const profits = ofFigure(consequences, FIGURE.profit)
    .toSorted((one, other) => sizeOfMove(other) - sizeOfMove(one))
    .map((each) => `by ${signedText(each, minorDigits)} in ${periodOf(each)}`);
  if (profits.length > 0) return `net profit changes ${fewOf(profits, 'quarter')}`;
  const others = new Set(consequences.filter(isOfMoney).map(({ figure }) => nameOf(figure)));
  if (others.size === 0) return UNCHANGED;
  const changed = fewOf([...others], 'figure');
  return isSummed ? `net profit is unchanged, unlike ${changed}` : `not as before: ${changed}`;
}

/** Without the word that its part of a label goes on with. */
function nameOf(figure: string): string {
  return figure.replace(/ through$/, ' by channel').replace(/ from$/, ' by product');
}

function textOf(figure: Consequence['after']): string {
  return typeof figure === 'string' ? figure : '';
}

/** Money beside the value of stock, of which there is a sentence of its own. */
function isOfMoney({ figure, type }: Consequence): boolean {
  return type === 'money' && figure !== FIGURE.stock && figure !== FIGURE.stockByKind;
}

function stockWords({ consequences, minorDigits, isSameYear }: BriefGrounds): string {
  const value = (isSameYear ? ofFigure(consequences, FIGURE.stock) : [])
    .toSorted((one, other) => (one.of < other.of ? -1 : 1))
    .at(-1);
  const ware = new Set(consequences.filter(({ figure }) => countsWare(figure)).map(({ of }) => of));
  const materials = ofFigure(consequences, FIGURE.onHand).length;
  const amounts = [
    ...(ware.size > 0 ? [counted(ware.size, 'kind of ware', 'kinds of ware')] : []),
    ...(materials > 0 ? [counted(materials, 'material')] : []),
  ];
  const parts = [
    ...(value
      ? [`its value at the end of ${periodOf(value)} changes by ${signedText(value, minorDigits)}`]
      : []),
    ...(amounts.length > 0 ? [`there is more or less of ${listed(amounts)}`] : []),
  ];
  if (parts.length > 0) return parts.join('; ');
  const isSame = !isSameYear || ofFigure(consequences, FIGURE.stockByKind).length === 0;
  return isSame ? UNCHANGED : 'of the same value, in other kinds of stock';
}

function filedWords({ consequences, filings, periods }: BriefGrounds): string {
  const [currency] = ofFigure(consequences, FIGURE.currency);
  if (currency)
    return `what was filed in ${textOf(currency.before)} would be in ${textOf(currency.after)}`;
  const byMove = grouped(filings, ({ became }) => became);
  const filed = (['moves', 'lost', 'stays'] as const).flatMap((became) => {
    const names = (byMove.get(became) ?? []).map(({ period }) => period);
    return names.length === 0 ? [] : [FILING_WORDS[became](listed(names))];
  });
  const summaries = periods.filter(({ isOfSummary }) => isOfSummary);
  const quarters = summaries.map(
    (each) => `${quarterName(each)} (${each.isClosed ? 'closed' : 'over'})`,
  );
  return [
    ...(filed.length > 0 ? filed : ['nothing was on record as filed']),
    ...summaryWords(quarters),
    ...(quarters.length === 0 && periods.length > 0
      ? ['the tax summaries of quarters that are over stay as they are']
      : []),
  ].join('; ');
}

function summaryWords(quarters: readonly string[]): string[] {
  if (quarters.length === 0) return [];
  const of = fewOf(quarters, 'quarter');
  return quarters.length === 1
    ? [`the tax summary of ${of} changes`]
    : [`the tax summaries of ${of} change`];
}

const FILING_WORDS: Readonly<Record<FilingMove['became'], (names: string) => string>> = {
  moves: (names) => `lines that were filed for ${names} change`,
  lost: (names) => `what was filed for ${names} can't be compared any more`,
  stays: (names) => `no line that was filed for ${names} changes`,
};

function ofFigure(consequences: readonly Consequence[], name: string): readonly Consequence[] {
  return consequences.filter(({ figure }) => figure === name);
}

function periodOf({ of, isClosed }: Consequence): string {
  return isClosed ? `${of} (closed)` : of;
}

/** So many are named. */
const MOST_QUARTERS = 3;

function fewOf(names: readonly string[], noun: string): string {
  const left = names.length - MOST_QUARTERS;
  if (left <= 1) return listed(names);
  return listed([...names.slice(0, MOST_QUARTERS), counted(left, `more ${noun}`, `more ${noun}s`)]);
}
