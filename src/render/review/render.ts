/** A review in the format that was asked for. */
import type { Review } from '../../review/review.ts';
import { type Printable, printedLayout } from '../printable.ts';
import { reviewMarkdown } from './markdown.ts';
import { reviewText } from './text.ts';
import type { ReportFigure } from '../../review/report-figures.ts';
import { type Consequence, differenceOf } from '../../review/figures.ts';
import type { ReviewChange } from '../../review/told-changes.ts';
import { jsonDocument } from '../json.ts';
import { plainFigure } from '../shown.ts';

export type ReviewFormat = 'text' | 'json' | 'markdown';

/** The review with a line end; the same review gives the same bytes. */
export function renderReview(
  review: Review,
  { as, width }: { readonly as: ReviewFormat; readonly width: number },
): Printable {
  return printedLayout(RENDERERS[as](review, width));
}

const RENDERERS: Readonly<Record<ReviewFormat, (review: Review, width: number) => string>> = {
  text: reviewText,
  json: reviewJson,
  markdown: reviewMarkdown,
};

/**
 * One JSON document. Keys are stable: version, report, studio, asOf,
 * currency, from, to, verdict, counts, onlyWritten, problems (new, gone, kept), risks, changes,
 * consequences, figures, notes. Figures are decimal strings as `plainFigure` writes them, what is missing is null.
 */
function reviewJson(review: Review): string {
  const { studio, asOf, currency, from, to, verdict, counts, onlyWritten, risks, notes } = review;
  return jsonDocument({
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
    risks: risks.map(({ title, about, at, reasons }) => ({ title, about, at, reasons })),
    changes: review.changes.map(changeJson),
    consequences: review.consequences.map((each) => ({
      figure: each.figure,
      of: each.of,
      type: each.type,
      unit: each.unit ?? null,
      ...sidesOf(each, review),
    })),
    figures: review.figures.map(
      ({ report, by, period, row, column, type, unit = null, ...sides }) => ({
        report,
        by,
        period,
        row,
        column,
        type,
        unit,
        ...sidesOf({ type, ...sides }, review),
      }),
    ),
    notes,
  });
}

function changeJson({ kind, id, became, title, about, at, follows, ...change }: ReviewChange) {
  const { was = null, from = null } = change;
  const fields = change.fields.map(({ path, label, at: place, before = null, after = null }) => {
    return { path, label, at: place, before, after };
  });
  return { kind, id, became, title, about, at, follows, was, from, fields };
}

/** A figure on both sides, as programs read it. */
function sidesOf(
  { type, ...sides }: Pick<Consequence, 'type' | 'before' | 'after'>,
  { minorDigits }: Review,
): Record<'before' | 'after' | 'difference', string | null> {
  const plain = (figure: ReportFigure | undefined): string | null => {
    if (figure === undefined) return null;
    return typeof figure === 'string' ? figure : plainFigure(figure, { type }, minorDigits);
  };
  return {
    before: plain(sides.before),
    after: plain(sides.after),
    difference: plain(differenceOf(sides)),
  };
}
