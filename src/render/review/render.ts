/** A review in the format that was asked for. */
import type { Review } from '../../review/review.ts';
import { reviewJson } from './json.ts';
import { reviewMarkdown } from './markdown.ts';
import { reviewText } from './text.ts';

export type ReviewFormat = 'text' | 'json' | 'markdown';

/** The review with a line end; the same review gives the same bytes. */
export function renderReview(
  review: Review,
  { as, width }: { readonly as: ReviewFormat; readonly width: number },
): string {
  if (as === 'json') return reviewJson(review);
  return as === 'markdown' ? reviewMarkdown(review) : reviewText(review, width);
}
