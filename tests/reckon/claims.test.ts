/** What a claim rests on, outcome by outcome; and that `check` warns by the same. */
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import { runRules } from '../../src/check/rules.ts';
import { claimsOn } from '../../src/reckon/claims/claims.ts';
import { careStatements } from '../../src/report/claims/claim-words.ts';
import { bookFrom } from '../helpers/book.ts';

const DAY = '2026-06-30';

interface Said {
  readonly tests?: string;
  readonly limits?: string;
  readonly mug?: string;
}

const FOUND = 'method: ASTM C738, ware: cup, lead: under 0.01 µg/mL, cadmium: under 0.01 µg/mL';
const GOOD = `t1: { date: 2026-03-01, kind: leach, recipe: green, leach: { ${FOUND} } }`;

function studioOf({
  tests = GOOD,
  limits = 'leach-limits: us-fda',
  mug = 'ware: cup',
}: Said): Book {
  return bookFrom({
    studio: `format: 1\nname: Test\ncurrency: USD\n${limits}\n`,
    materials:
      'feldspar: { name: F, kind: dry, unit: g }\ncopper: { name: C, kind: colourant, unit: g, contains: [copper] }\nbuff: { name: B, kind: clay, unit: kg }\nwhite: { name: W, kind: clay, unit: kg }',
    recipes:
      'green: { name: Green, kind: glaze, cone: "6", versions: [{ from: 2026-01-01, base: [{ material: feldspar, parts: 100 }] }, { from: 2026-02-01, base: [{ material: feldspar, parts: 99 }, { material: copper, parts: 1 }] }] }',
    products: `mug: { name: Mug, care: [food], clay: { material: buff, each: 1 kg }, glazes: [{ recipe: green, each: 9 g }], ${mug} }`,
    firings: 'f4: { date: 2026-02-20, kiln: k, kind: glaze, cone: "04", load: [] }',
    pieces:
      'p1: { date: 2026-01-10, product: mug, made: 4 }\np2: { date: 2026-02-10, product: mug, made: 4 }',
    tests,
  });
}

function outcomeOf(said: Said): string[] {
  return claimsOn(studioOf(said), DAY).map(({ evidence: { outcome, lacks, differs } }) =>
    [outcome, lacks ?? differs?.join('+')].filter((each) => each !== undefined).join(' '),
  );
}

const CASES: readonly [string, Said, string][] = [
  ['a test under the limit', {}, 'under'],
  ['no test', { tests: '' }, 'none'],
  ['a test that is still to come', { tests: GOOD.replace('2026-03', '2026-07') }, 'none'],
  ['no limits named', { limits: 'lead-days: 3' }, 'on-record'],
  ['over', { tests: GOOD.replace('lead: under 0.01', 'lead: 0.51') }, 'over'],
  [
    'over by a method of its own',
    { tests: GOOD.replace('lead: under 0.01', 'lead: 0.51').replace('ASTM C738', 'vinegar') },
    'over',
  ],
  ['too coarse', { tests: GOOD.replace('lead: under 0.01', 'lead: under 1') }, 'too-coarse'],
  [
    'another unit',
    { tests: GOOD.replace('under 0.01 µg/mL, cad', 'under 0.01 mg/dm2, cad') },
    'not-comparable amount',
  ],
  [
    'words',
    { tests: GOOD.replace('lead: under 0.01 µg/mL', 'lead: none') },
    'not-comparable amount',
  ],
  [
    'no cadmium',
    { tests: GOOD.replace(', cadmium: under 0.01 µg/mL', '') },
    'not-comparable amount',
  ],
  ['another method', { tests: GOOD.replace('ASTM C738', 'lemon juice') }, 'not-comparable method'],
  [
    'other ware, and over the limit of that',
    {
      tests: GOOD.replace('ware: cup', 'ware: flatware').replace('lead: under 0.01', 'lead: 9'),
    },
    'over other-ware',
  ],
  [
    'other ware',
    { tests: GOOD.replace('ware: cup', 'ware: flatware') },
    'not-comparable other-ware',
  ],
  ['ware in words', { tests: GOOD.replace('ware: cup', 'ware: my mug') }, 'not-comparable ware'],
  ['a product of no ware', { mug: 'price: 3' }, 'not-comparable ware'],
  [
    'ware without a limit, and over that of other ware',
    { mug: 'ware: cooking', tests: GOOD.replace('lead: under 0.01', 'lead: 9') },
    'over other-ware',
  ],
  [
    'ware without a limit',
    { mug: 'ware: cooking', tests: GOOD.replace('ware: cup', 'ware: cooking') },
    'not-comparable limit',
  ],
  ['the version before', { tests: GOOD.replace('2026-03', '2026-01') }, 'of-another version'],
  [
    'a version that the test names',
    { tests: GOOD.replace('kind:', 'version-of: 2026-01-15, kind:') },
    'of-another version',
  ],
  [
    'a lot made of the version before',
    { tests: GOOD.replace('recipe: green', 'lot: p1') },
    'of-another version',
  ],
  [
    'a lot made of the version in force',
    { tests: GOOD.replace('recipe: green', 'lot: p2').replace('ware: cup, ', '') },
    'under',
  ],
  ['another cone', { tests: GOOD.replace('kind:', 'cone: "04", kind:') }, 'of-another cone'],
  [
    'the cone of another firing',
    { tests: GOOD.replace('kind:', 'firing: f4, kind:') },
    'of-another cone',
  ],
  ['another clay', { tests: GOOD.replace('kind:', 'clay: white, kind:') }, 'of-another clay'],
  [
    'a later good test after one over',
    {
      tests: `${GOOD.replace('t1', 't2').replace('2026-03', '2026-05')}\n${GOOD.replace('lead: under 0.01', 'lead: 0.51')}`,
    },
    'over',
  ],
  [
    'limits of its own',
    {
      limits: 'own-limits: { title: Ours, limits: [{ ware: cup, metal: lead, most: 0.005 mg/L }] }',
    },
    'too-coarse',
  ],
];

describe('food', () => {
  it.each(CASES)('%s', (_, said, outcome) => {
    expect(outcomeOf(said)).toEqual([outcome]);
  });

  it.each(CASES)('%s: check warns by the same', (_, said) => {
    const book = studioOf(said);
    const [claim] = claimsOn(book, DAY);
    const rules = new Set(runRules(book, DAY).map(({ rule }) => rule));
    const { outcome, isFailed } = claim?.evidence ?? { outcome: 'none', isFailed: false };
    expect(rules.has('food-claim-without-test')).toBe(outcome === 'none');
    expect(rules.has('contains-regulated-metal')).toBe(
      outcome === 'none' || outcome === 'of-another',
    );
    expect(rules.has('food-claim-over-limit')).toBe(isFailed);
  });

  it.each(CASES)('%s: what may be printed never says more', (_, said) => {
    const book = studioOf(said);
    const mug = book.products.get('mug');
    const [word] = mug ? careStatements(book, mug, DAY) : [];
    const [claim] = claimsOn(book, DAY);
    const outcome = claim?.evidence.outcome ?? 'none';
    expect(word?.mayBePrinted).toBe(['under', 'on-record'].includes(outcome));
    expect(word?.words).not.toMatch(/\bsafe\b/i);
  });
});

it('the glaze of which least can be said decides what is printed', () => {
  const book = studioOf({ mug: 'ware: cup' });
  const two = bookFrom({
    products:
      'mug: { name: Mug, care: [food, dishwasher, ornamental], ware: cup, glazes: [{ recipe: a, each: 1 g }, { recipe: b, each: 1 g }] }',
    recipes:
      'a: { name: A, kind: glaze, versions: [{ from: 2026-01-01, base: [] }] }\nb: { name: B, kind: glaze, versions: [{ from: 2026-01-01, base: [] }] }',
    tests: `${GOOD.replace('green', 'a')}\nt3: { date: 2026-03-02, kind: dishwasher, recipe: a, verdict: no }`,
  });
  const mug = two.products.get('mug');
  const words = mug ? careStatements(two, mug, DAY) : [];
  expect(words.map(({ words: said, mayBePrinted }) => [said, mayBePrinted])).toEqual([
    ['For food: no test on record', false],
    ['Dishwasher: test on record, failed, 2026-03-02', false],
    ['Ornamental: not for food', true],
  ]);
  expect(book.products.size).toBe(1);
});
