/** What was filed for a period, and is no longer what the book comes to. */
import { counted } from '../../in-words.ts';
import { moneyText } from '../../number/money.ts';
import { digitsOf } from '../../reckon/booked.ts';
import { filedPeriods, movedLines, type FiledPeriod } from '../../reckon/filed.ts';
import { flow } from '../../reckon/flow.ts';
import type { Book } from '../../book.ts';
import { type RuleFinding, spot } from '../finding.ts';
import type { FilingScene } from './filing-unfit.ts';

export const FILED_DIFFERS = {
  name: 'filed-differs',
  severity: 'warning',
  about: 'The book no longer comes to what was filed for a period.',
} as const;

/**
 * One finding for each filing that differs, at the line of the net profit where that is among them.
 * None while records are left out for their faults: they may well make the difference.
 */
export function filedDiffers(book: Book, scene: FilingScene): readonly RuleFinding[] {
  const { ids, kinds } = scene.unsound;
  if (ids.size + kinds.size > 0) return [];
  const periods = filedPeriods(book, flow(book, scene.day), scene.sheetOf);
  return periods.flatMap((each) => differing(book, each));
}

function differing(book: Book, filed: FiledPeriod): RuleFinding[] {
  const [first, ...others] = movedLines(filed);
  if (!first) return [];
  const { filing, period } = filed;
  const digits = digitsOf(book);
  const [was, is] = [moneyText(first.filed, digits), moneyText(first.now, digits)];
  const more =
    others.length === 0
      ? ''
      : `; so ${others.length === 1 ? 'does' : 'do'} ${counted(others.length, 'other line')}`;
  return [
    {
      at: spot(filing, 'lines', first.name),
      message: `line ${first.name} of ${period.name} differs: ${was} was filed, ${is} is what the book has now${more}`,
      hint: `see what changed with saggar quarter ${period.name} --sheet ${filed.sheet.id} and saggar review, and ask whoever files for you whether to correct the filing`,
    },
  ];
}
