/** A review as one JSON document with exact figures. */
import type { Decimal } from '../../number/decimal.ts';
import { differenceOf, type Consequence } from '../../review/figures.ts';
import type { Review } from '../../review/review.ts';
import { visibleJson } from '../escape.ts';
import { plainFigure } from '../shown.ts';

/**
 * One JSON document, indented by two spaces, with a line end. Keys are stable: report, studio, asOf,
 * currency, from, to, verdict, counts, onlyWritten, problems (new, gone, kept), risks, changes,
 * consequences, notes. Figures are decimal strings as `plainFigure` writes them, what is missing is null.
 */
export function reviewJson(review: Review): string {
  const { studio, asOf, currency, from, to, verdict, counts, onlyWritten, risks, notes } = review;
  const plain = (value: Decimal, figure: Consequence): string =>
    plainFigure(value, figure, review.minorDigits);
  const document = {
    report: 'review',
    studio,
    asOf,
    currency,
    from,
    to,
    verdict,
    counts,
    onlyWritten,
    problems: { new: review.brought, gone: review.mended, kept: review.kept },
    risks,
    changes: review.changes.map((change) => ({
      ...change,
      was: change.was ?? null,
      from: change.from ?? null,
      fields: change.fields.map(({ path, label, at, before = null, after = null }) => ({
        path,
        label,
        at,
        before,
        after,
      })),
    })),
    consequences: review.consequences.map((each) => ({
      figure: each.figure,
      of: each.of,
      type: each.type,
      unit: each.unit ?? null,
      before: each.before ? plain(each.before, each) : null,
      after: each.after ? plain(each.after, each) : null,
      difference: plain(differenceOf(each), each),
    })),
    notes,
  };
  return `${visibleJson(JSON.stringify(document, null, 2))}\n`;
}
