/** What may be said of a product's care: each word that it claims, with the test that is on record for it. */
import type { Book, Care, Day, Product } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { careStatements } from '../claims/claim-words.ts';
import type { PaperScene } from './letter.ts';
import type { Paper } from './paper.ts';
import { letterOf } from './letter.ts';

/** A word, and the day of the last test that stands for it; undefined where none is on record. */
export interface CareWord {
  readonly care: Care;
  readonly tested: Day | undefined;
}

/** The words that a product claims on a day. A word without a test, or whose test failed, is no claim to print as one. */
export function careWords(book: Book, product: Product, asOf: Day): CareWord[] {
  return careStatements(book, product, asOf).map(({ care, mayBePrinted, tested }) => ({
    care,
    tested: mayBePrinted ? tested : undefined,
  }));
}

/** A care word as a label has it; undefined where it may not be said without a test. */
export function careText({ wording }: PaperScene, { care, tested }: CareWord): string | undefined {
  // What a leach test found has no room on a label: the care card says more.
  if (tested === undefined || care === 'food') return undefined;
  return `${wording.say(care)}: ${wording.say('tested')} ${wording.day(tested)}`;
}

/** The care card of a product: every word with its test, or that there is none. */
export function carePaper(scene: PaperScene, product: Product): Paper {
  const { wording, book, asOf } = scene;
  const words = careWords(book, product, asOf);
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
      rows: words.map(({ care, tested }) => [
        wording.say(care),
        care === 'ornamental'
          ? ''
          : tested === undefined
            ? wording.say('no-test')
            : wording.day(tested),
      ]),
    },
    texts: [wording.say('tests-say')],
  };
}
