/** What may be said of a product's care: each word that it claims, with the test that is on record for it. */
import type { Book, Care, Day, Product, Test } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { versionOn } from '../../reckon/stock/recipe.ts';
import type { PaperScene } from './letter.ts';
import type { Paper } from './paper.ts';
import { letterOf } from './letter.ts';

/** A word, and the day of the last test that stands for it; undefined where none is on record. */
export interface CareWord {
  readonly care: Care;
  readonly tested: Day | undefined;
}

/** The words that a product claims on a day. A word without a test is no claim to print as one. */
export function careWords(book: Book, product: Product, asOf: Day): CareWord[] {
  const { care = [], glazes = [] } = inForce(product, asOf);
  const recipes = [...new Set(glazes.map(({ recipe }) => recipe))];
  return care.map((word) => {
    if (word !== 'food')
      return { care: word, tested: lastTest(book, asOf, testsOf(product, word)) };
    const days = recipes.map((recipe) => lastTest(book, asOf, leachOf(book, recipe, asOf)));
    const isWhole = days.length > 0 && days.every((day) => day !== undefined);
    return { care: word, tested: isWhole ? days.sort()[0] : undefined };
  });
}

type IsFor = (test: Test, book: Book) => boolean;

function lastTest(book: Book, asOf: Day, isFor: IsFor): Day | undefined {
  return [...book.tests.values()]
    .filter((test) => test.date <= asOf && isFor(test, book))
    .map(({ date }) => date)
    .sort()
    .at(-1);
}

/** Of a lot of the product. */
function testsOf(product: Product, care: Care): IsFor {
  return ({ kind, lot }, { pieces }) =>
    kind === care && pieces.get(lot ?? '')?.product === product.id;
}

/** Of the recipe's version in force, of a mix of it or of a lot with it. */
function leachOf(book: Book, recipe: string, asOf: Day): IsFor {
  const of = book.recipes.get(recipe);
  const from = (of && versionOn(of, asOf)?.from) ?? asOf;
  return ({ kind, date, recipe: own, mix, lot }, { mixed, pieces, products }) => {
    const ware = pieces.get(lot ?? '');
    const glazes = ware?.glazes ?? products.get(ware?.product ?? '')?.glazes ?? [];
    const named = [own, mixed.get(mix ?? '')?.recipe, ...glazes.map((glaze) => glaze.recipe)];
    return kind === 'leach' && date >= from && named.includes(recipe);
  };
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
