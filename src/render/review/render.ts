/** A review in the format that was asked for. */
import type { Review } from '../../review/review.ts';
import { printedLayout, type Printable } from '../printable.ts';
import { reviewJson } from './json.ts';
import { reviewMarkdown } from './markdown.ts';
import { reviewText } from './text.ts';

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
