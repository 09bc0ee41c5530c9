/** What papers say of a product's care: the words that claims leave, each with the test that it rests on. */
import type { Product } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import type { ClaimOutcome } from '../../reckon/claims/claims.ts';
import { limitsOf } from '../../reckon/claims/limits.ts';
import { careStatements, type CareStatement } from '../claims/claim-words.ts';
import { letterOf, saidTexts, type PaperScene } from './letter.ts';
import type { Paper } from './paper.ts';
import type { PhraseKey } from './phrases.ts';

/** What is said of each outcome; of one that is over a limit nothing is, for its word is left out. */
const OUTCOME_PHRASES: Readonly<Record<ClaimOutcome, PhraseKey>> = {
  under: 'tested-under',
  'on-record': 'tested',
  none: 'no-test',
  over: 'test-not-comparable',
  'too-coarse': 'test-not-comparable',
  'not-comparable': 'test-not-comparable',
  'of-another': 'test-not-comparable',
};

/** What a test on record is, and its day; of one that can't be compared no day, for it would say too much. */
function testWords(
  { wording }: PaperScene,
  { outcome, mayBePrinted, tested }: CareStatement,
): string {
  const day = mayBePrinted && tested !== undefined ? wording.day(tested) : undefined;
  return saidTexts(wording.say(OUTCOME_PHRASES[outcome]), day).join(', ');
}

/** A care word as a label has it; undefined where it may not be said. */
export function careText(scene: PaperScene, statement: CareStatement): string | undefined {
  if (!statement.mayBePrinted) return undefined;
  return `${scene.wording.say(statement.care)}: ${testWords(scene, statement)}`;
}

/** The care card of a product: its words with what they rest on, without those whose test failed. */
export function carePaper(scene: PaperScene, product: Product): Paper {
  const { wording, book, asOf } = scene;
  const statements = careStatements(book, product, asOf).filter(({ isFailed }) => !isFailed);
  const limits = statements.some(({ outcome }) => outcome === 'under') && limitsOf(book.studio);
  return {
    ...letterOf(scene),
    title: `${wording.say('care-card')}: ${inForce(product, asOf).name}`,
    facts: [],
    table: {
      caption: wording.say('care-words'),
      columns: [
        { head: wording.say('care-words'), isFigure: false },
        { head: wording.say('test'), isFigure: false },
      ],
      rows: statements.map((statement) => [
        wording.say(statement.care),
        statement.care === 'ornamental' ? '' : testWords(scene, statement),
      ]),
    },
    texts: saidTexts(limits ? limits.title : undefined, wording.say('tests-say')),
  };
}
