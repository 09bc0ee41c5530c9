/** What matters of galleries: who owes what, and since when; else what is there. */
import type { Day } from '../../book.ts';
import { counted } from '../../in-words.ts';
import { daysBetween } from '../../number/date.ts';
import { NO_MONEY, total, type Money } from '../../number/money.ts';
import type { GalleryStanding } from '../../reckon/ware/gallery.ts';
import { amountText } from '../day/day-words.ts';
import type { RowAlerts, Table, Verdict } from '../table.ts';
import { figuresIn, namesSaid } from './parts.ts';

/** Of galleries in the order of the rows. */
export function galleriesVerdict(
  galleries: readonly GalleryStanding[],
  { columns, totals, minorDigits }: Pick<Table, 'columns' | 'totals' | 'minorDigits'>,
): Verdict | undefined {
  if (galleries.length === 0) return undefined;
  const amount = (sum: Money): string => amountText(sum, minorDigits);
  const owing = galleries
    .filter(({ unpaid }) => unpaid > NO_MONEY)
    .toSorted((one, other) => (oldestDebt(one) < oldestDebt(other) ? -1 : 1));
  const lead = owingWords(owing, amount);
  return {
    sentence: `${lead}; ${thereWords(galleries, amount)}.`,
    figures: figuresIn(columns, totals, ['unpaid', 'value', 'here']),
  };
}

function owingWords(owing: readonly GalleryStanding[], amount: (sum: Money) => string): string {
  const [first, second] = owing;
  if (!first) return 'No gallery owes you anything';
  const since = (each: GalleryStanding): string =>
    `${amount(each.unpaid)} since ${oldestDebt(each)}`;
  if (!second) return `${first.gallery.name} owes you ${since(first)}`;
  const each = owing.map((gallery) => `${gallery.gallery.name} (${since(gallery)})`);
  return `${owing.length} galleries owe you: ${namesSaid(each)}`;
}

function thereWords(galleries: readonly GalleryStanding[], amount: (sum: Money) => string): string {
  const here = galleries.reduce((all, each) => all + each.here, 0);
  if (here === 0) return 'none of your pieces is there';
  const value = amount(total(galleries.map((each) => each.value)));
  return `${counted(here, 'piece')} worth ${value} ${here === 1 ? 'is' : 'are'} still there`;
}

/** What has been owed for longer wants asking for (common practice, where nothing else was agreed). */
const DAYS_TO_PAY = 30;

/** Those that owe, where it says since when. */
export function galleriesAlerts(galleries: readonly GalleryStanding[], asOf: Day): RowAlerts {
  const of = galleries.map((each) => {
    if (each.unpaid <= NO_MONEY) return undefined;
    return daysBetween(oldestDebt(each), asOf) > DAYS_TO_PAY ? 'now' : 'soon';
  });
  return { column: 'owedSince', of };
}

/** The day of the oldest debt, which is the first; empty where nothing is owed. */
function oldestDebt({ debts }: Pick<GalleryStanding, 'debts'>): Day {
  return debts[0]?.since ?? '';
}
