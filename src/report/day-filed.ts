/** What a day's end says of periods that were filed, where the book has other figures now. */
import type { Book } from '../book.ts';
import { counted } from '../in-words.ts';
import { NO_MONEY, opposite } from '../number/money.ts';
import { digitsOf } from '../reckon/booked.ts';
import { movedLines, type FiledLine, type FiledPeriod } from '../reckon/filed.ts';
import { NET_PROFIT } from '../reckon/tax-sheet.ts';
import { sectionOf, type Section } from './day-sections.ts';
import { amountText } from './day-words.ts';

const MONEY_GROUP = 4;

/** One line for all of them; none where everything is as it was filed. */
export function filedSections(book: Book, filed: readonly FiledPeriod[]): Section[] {
  const moved = filed
    .map((each) => ({ each, lines: movedLines(each) }))
    .filter(({ lines }) => lines.length > 0);
  if (moved.length === 0) return [];
  const rows = moved.map(({ each: { filing, period }, lines }) => {
    const profit = lines.find(({ line }) => line.key === NET_PROFIT);
    return {
      what: filing.id,
      name: period.name,
      count: lines.length,
      amount: profit?.difference ?? null,
      since: filing.date,
      says: `${period.name}: ${profit ? profitText(book, profit) : linesText(lines)}`,
    };
  });
  return [sectionOf('filed', { label: 'Filed', group: MONEY_GROUP, lead: '' }, rows)];
}

function profitText(book: Book, { difference }: FiledLine): string {
  const isMore = difference > NO_MONEY;
  const amount = amountText(isMore ? difference : opposite(difference), digitsOf(book));
  return `profit is ${amount} ${isMore ? 'more' : 'less'} than was filed`;
}

function linesText(lines: readonly FiledLine[]): string {
  return `${counted(lines.length, 'line')} differ${lines.length === 1 ? 's' : ''} from what was filed`;
}
