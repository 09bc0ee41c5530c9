/** What a change does to the closed period, as errors: a book alone can't have them. */
import type { Finding } from '../../problem.ts';
import { digitsOf } from '../../reckon/booked.ts';
import type { RecordChange } from '../changes.ts';
import { CLOSED_PERIOD_CHANGED, reopened } from './closed.ts';
import { closedHint } from './closed-hints.ts';
import type { PeriodCause } from './moved-causes.ts';
import { periodsWords } from './moved-periods.ts';
import { placeOfChange, titleOfRecord, type Speech } from '../words.ts';

/** What a change does to the closed period: the figures that it moves there, and whether it is still closed. */
export function closedFindings(
  speech: Speech,
  changes: readonly RecordChange[],
  causes: readonly PeriodCause[],
): Finding[] {
  const { name: rule, severity } = CLOSED_PERIOD_CHANGED;
  const finding = (change: RecordChange, message: string, hint: string): Finding => {
    return { rule, severity, at: placeOfChange(speech, change), message, hint };
  };
  const minorDigits = digitsOf(speech.old.book);
  const writing = { minorDigits, isHidden: speech.hidden.prices };
  return [
    ...changes.flatMap((change) => currencyFindings(speech, change, finding)),
    ...causes
      .filter(({ isClosed }) => isClosed)
      .map(({ change, moved }) =>
        finding(change, periodsWords(moved, writing), closedHint(speech, change)),
      ),
    ...changes.flatMap((change) =>
      reopened(change, speech.old.book.studio.closedThrough).map(({ message, hint }) =>
        finding(change, `${titleOfRecord(change)}: ${message}`, hint),
      ),
    ),
  ];
}

/** Amounts of a closed period that would count in another currency: no figure of it says so. */
function currencyFindings(
  { old, now }: Speech,
  change: RecordChange,
  finding: (change: RecordChange, message: string, hint: string) => Finding,
): Finding[] {
  const { closedThrough, currency } = old.book.studio;
  const to = now.book.studio.currency;
  if (change.kind !== 'studio' || closedThrough === undefined || to === currency) return [];
  const message = `every amount through ${closedThrough}, closed, would be ${to} and not ${currency}; none is converted`;
  return [finding(change, message, `write ${currency}`)];
}
