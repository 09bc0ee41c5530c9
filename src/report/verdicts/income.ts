/** What matters of an income: how much is left, what earned most of it, and which month was best. */
import type { IncomeGroup } from '../../groups.ts';
import { capitalised, sentences } from '../../in-words.ts';
import { NO_MONEY, type Money } from '../../number/money.ts';
import { incomeRows } from '../../reckon/sales/income.ts';
import {
  marginOf,
  netOf,
  type IncomeFact,
  type IncomeMoney,
} from '../../reckon/sales/income-fact.ts';
import { amountText } from '../day/day-words.ts';
import type { Table, Verdict } from '../table.ts';
import { figuresIn, greatest } from './parts.ts';

/** A row's money and what people call it; undefined of one that has no name. */
export interface NamedIncome {
  readonly money: IncomeMoney;
  readonly name: string | undefined;
}

interface IncomeShown extends Pick<Table, 'columns' | 'totals' | 'minorDigits'> {
  readonly by: IncomeGroup;
  readonly facts: readonly IncomeFact[];
  readonly rows: readonly NamedIncome[];
}

/** What a period comes to: the margin; the net where the cost of something is not known. */
interface IncomeMeasure {
  readonly of: (money: IncomeMoney) => Money;
  readonly words: string;
}

const MARGIN: IncomeMeasure = { of: marginOf, words: 'left after fees and cost' };
const NET: IncomeMeasure = { of: netOf, words: 'net income before fees and cost' };

/** The best by product or whatever the rows are, and by month; what is best of one alone goes without saying. */
export function incomeVerdict(shown: IncomeShown): Verdict | undefined {
  const { by, facts, rows, columns, totals, minorDigits } = shown;
  if (rows.length === 0) return undefined;
  const isKnown = rows.every(({ money }) => !money.unknown);
  const measure = isKnown ? MARGIN : NET;
  const all = totals?.[isKnown ? 'margin' : 'net'];
  if (typeof all !== 'bigint') return undefined;
  const amount = (sum: Money): string => amountText(sum, minorDigits);
  const months = incomeRows(facts, 'month').map((money) => ({ money, name: money.item }));
  const best = sentences(
    by !== 'month' && bestOf(rows, measure, { amount, words: BEST[by] }),
    bestOf(months, measure, { words: 'was the best month', ...(by === 'month' && { amount }) }),
  );
  const lead = leadWords(amount(all), measure);
  return {
    sentence: `${[lead, best.join(', and ')].filter((each) => each !== '').join('; ')}.`,
    figures: figuresIn(columns, totals, ['margin', 'net', 'marginPerHour']),
  };
}

/** A sentence does not begin with a minus. */
function leadWords(all: string, { words }: IncomeMeasure): string {
  if (!all.startsWith('-')) return `${all} is ${words}`;
  return `${capitalised(words)}: ${all}`;
}

const BEST: Readonly<Record<Exclude<IncomeGroup, 'month'>, string>> = {
  product: 'earned most',
  channel: 'earned most',
  class: 'earned most',
  buyer: 'is the buyer who earned you most',
};

/** `Mug earned most (5,242.77)`; nothing where there is but one, or none is above zero. */
function bestOf(
  rows: readonly NamedIncome[],
  { of }: IncomeMeasure,
  { words, amount }: { readonly words: string; readonly amount?: (sum: Money) => string },
): string | undefined {
  const named = rows.filter(({ name }) => name !== undefined);
  if (named.length < 2) return undefined;
  const best = greatest(named, (one, other) => Number(of(one.money) - of(other.money)));
  const sum = best[0] ? of(best[0].money) : NO_MONEY;
  if (best.length > 1 || sum <= NO_MONEY) return undefined;
  return `${best[0]?.name ?? ''} ${words}${amount ? ` (${amount(sum)})` : ''}`;
}
