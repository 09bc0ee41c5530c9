/** What is said of a claim: never that ware is safe, only which test is on record, or that none is. */
import type { Book, Care, Day, LeachLimits, Product } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import {
  claimsOf,
  type ClaimOutcome,
  type ClaimEvidence,
  type Incomparable,
} from '../../reckon/claims/claims.ts';
import { limitsOf } from '../../reckon/claims/limits.ts';

/** What is on record, in a few words. */
export const CLAIM_WORDS: Readonly<Record<ClaimOutcome, string>> = {
  under: 'test on record, under the limit',
  over: 'over the limit',
  'too-coarse': 'too coarse to say',
  'not-comparable': 'not comparable',
  'of-another': 'of another version, cone or clay',
  'on-record': 'test on record',
  none: 'no test on record',
};

/** The outcome of a claim; of tests of other ware, in what that differs. */
export function outcomeInWords({ outcome, differs, lacks, isFailed }: ClaimEvidence): string {
  if (isFailed && outcome === 'on-record') return `${CLAIM_WORDS[outcome]}, failed`;
  if (lacks !== undefined) return `${CLAIM_WORDS[outcome]}: ${LACKS[lacks]}`;
  if (outcome !== 'of-another' || differs === undefined) return CLAIM_WORDS[outcome];
  return `of another ${differs.join(' and ')}`;
}

/** Why a result can't be held against a limit. */
const LACKS: Readonly<Record<Incomparable, string>> = {
  ware: 'its ware is not on record',
  limit: 'the sheet has no limit for that ware',
  'other-ware': 'tested on other ware',
  amount: 'lead or cadmium is not on record in the unit of the limit',
  method: 'the method is not one of the sheet',
};

/** A care word of a product, and what may be printed of it. */
export interface CareStatement {
  readonly care: Care;
  readonly outcome: ClaimOutcome;
  /** Whether a card or a label may have the word: a test is on record, and none failed. */
  readonly mayBePrinted: boolean;
  /** Whether a test that it rests on failed: the word is not to be printed at all. */
  readonly isFailed: boolean;
  /** The day of the test. */
  readonly tested: Day | undefined;
  /** The word with what it rests on; nothing beyond this may be said of it. */
  readonly words: string;
}

const CARE: Readonly<Record<Care, string>> = {
  food: 'For food',
  oven: 'Oven',
  microwave: 'Microwave',
  dishwasher: 'Dishwasher',
  ornamental: 'Ornamental: not for food',
};

/** The worst comes first. */
const WORST_FIRST: readonly ClaimOutcome[] = [
  'over',
  'none',
  'of-another',
  'not-comparable',
  'too-coarse',
  'on-record',
  'under',
];

/**
 * The care words of a product on a day, each with what it rests on; of several glazes the one of which
 * least can be said. What papers print of care comes from here.
 */
export function careStatements(book: Book, product: Product, day: Day): readonly CareStatement[] {
  const now = inForce(product, day);
  const claims = claimsOf(book, now, day);
  return (now.care ?? []).map((care) => {
    const all = claims.filter((each) => each.care === care).map(({ evidence }) => evidence);
    const rank = ({ outcome, isFailed }: ClaimEvidence): number =>
      isFailed ? -1 : WORST_FIRST.indexOf(outcome);
    const [least] = [...all].sort((one, other) => rank(one) - rank(other));
    return statementOf(care, least ?? { outcome: 'none', isFailed: false }, limitsOf(book.studio));
  });
}

function statementOf(
  care: Care,
  evidence: ClaimEvidence,
  limits: LeachLimits | undefined,
): CareStatement {
  const { outcome, test, isFailed } = evidence;
  const word = CARE[care];
  const about = { care, outcome, isFailed, tested: test?.date };
  if (care === 'ornamental') return { ...about, mayBePrinted: true, words: word };
  const mayBePrinted = !isFailed && (outcome === 'under' || outcome === 'on-record');
  const said =
    outcome === 'under' && limits
      ? `lead and cadmium under the limits of ${limits.title} in a test on record`
      : outcomeInWords(evidence);
  const on = test === undefined ? '' : `, ${test.date}`;
  return { ...about, mayBePrinted, words: `${word}: ${said}${on}` };
}
