/** The usual cautions for what materials contain, in one wording (common practice; local rules come first). */
import { listed } from '../check/finding.ts';

/** What to take care of with materials that contain something; undefined for nothing. */
export function cautionInWords(contains: readonly string[]): string | undefined {
  if (contains.length === 0) return undefined;
  const others = contains.filter((each) => each !== 'silica');
  const silica = contains.includes('silica')
    ? ' Silica dust harms the lungs: weigh it with a fitted respirator, clean wet, never sweep dry.'
    : '';
  const metals =
    others.length > 0
      ? ` Don't breathe in or swallow ${listed(others, 'or')}: wear gloves, keep food and drink away.`
      : '';
  return `Contains ${contains.join(', ')}.${silica}${metals} Follow its safety data sheet and local rules.`;
}
