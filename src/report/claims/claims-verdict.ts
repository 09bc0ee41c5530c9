/** What matters of claims, in a sentence: what failed, else how many have no test; never that ware is safe. */
import type { Claim } from '../../reckon/claims/claims.ts';
import type { Alert, Verdict } from '../table.ts';

/** Undefined where nothing is claimed. */
export function claimsVerdict(claims: readonly Claim[]): Verdict | undefined {
  if (claims.length === 0) return undefined;
  const failed = claims.filter(({ evidence }) => evidence.isFailed);
  const without = claims.filter(({ evidence }) => evidence.outcome === 'none');
  const figures = [
    { label: 'Failed', cell: failed.length },
    { label: 'No test on record', cell: without.length },
  ]
    .filter(({ cell }) => cell > 0)
    .map((figure) => ({ ...figure, column: { type: 'count' } as const }));
  const [first] = failed;
  const sentence = first ? failedSentence(first, failed.length) : testedSentence(claims, without);
  return { sentence, figures };
}

function failedSentence({ product, care }: Claim, failed: number): string {
  const others = failed === 1 ? '' : `, and ${failed - 1} more`;
  return `Failed: ${product.name} (${care})${others}; stop selling it as that.`;
}

function testedSentence(claims: readonly Claim[], without: readonly Claim[]): string {
  const [first] = without;
  const all = claims.length;
  if (!first) return `No test of the ${all} claims failed; ${otherWare(claims)}.`;
  const how = without.length === 1 ? 'has' : 'have';
  const which = `${first.product.name} (${first.care})`;
  return `${without.length} of ${all} claims ${how} no test on record, first of all ${which}.`;
}

const FITTING: ReadonlySet<string> = new Set(['under', 'on-record']);

/** How many rest on a test that can't be held against them. */
function otherWare(claims: readonly Claim[]): string {
  const odd = claims.filter(({ evidence }) => !FITTING.has(evidence.outcome)).length;
  if (odd === 0) return 'each has a test on record that is of it';
  return `${odd} ${odd === 1 ? 'has' : 'have'} only a test that says little of it`;
}

/** Failed, or without a test. */
export function alertOfClaim({ evidence: { isFailed, outcome } }: Claim): Alert | undefined {
  if (isFailed) return 'now';
  return outcome === 'none' ? 'soon' : undefined;
}
