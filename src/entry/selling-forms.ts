/** How the items of orders, sales, advances, deliveries and fairs are typed as one sentence. */
import type { Form, Grammar } from './form.ts';

/** Pieces, of which a bare name means one, and a second number their price. */
const ONE_AT_PRICE: Grammar = { lead: 'count', bare: '1', loose: 'price' };

const WARE = ['product', 'glaze', 'grade', 'lot'];

function consigned(field: string, about: string, example: string): Form {
  const isMissing = field === 'missing';
  return {
    kind: 'consigned',
    field,
    option: field,
    shape: `COUNT PRODUCT [GLAZE] [first or second] [LOT] [at PRICE]${isMissing ? ' [owed AMOUNT] [paid DAY]' : ''}`,
    about,
    examples: [example],
    grammar: {
      ...ONE_AT_PRICE,
      middle: WARE,
      tails: { at: 'price', lot: 'lot', ...(isMissing ? { owed: 'owed', paid: 'paid' } : {}) },
    },
  };
}

/** These forms, in the order of the kinds. */
export const SELLING_FORMS: readonly Form[] = [
  {
    kind: 'orders',
    field: 'lines',
    option: 'line',
    shape: 'COUNT PRODUCT or for WORDS [GLAZE] [first or second] [at PRICE] [note WORDS]',
    about: 'what was ordered; the price is for one, as it was agreed',
    examples: [
      '12 mug sea-green at 36',
      '1 for a platter with a heron on it at 140',
      '6 bowl note names on the feet',
    ],
    grammar: {
      ...ONE_AT_PRICE,
      middle: ['product', 'glaze', 'grade'],
      tails: { at: 'price', for: 'for', note: 'note' },
    },
  },
  {
    kind: 'sales',
    field: 'lines',
    option: 'line',
    shape:
      'COUNT PRODUCT or CLASS or for WORDS [GLAZE] [first or second] [LOT] [ORDER] [at PRICE] [less DISCOUNT] [taxed YES or NO] [returned]',
    about:
      "mug alone is one, 2x mug two, and 1 mug 25 has its price; the price is for one; left out it is the lot's or the product's own: the second's price for a second, the wholesale price on a wholesale channel, the fee of a class",
    examples: [
      '2 mug at 38',
      '1 mug sea-green second at 20 less 2.00',
      '3 bowl lot p260301ab at 44',
      '2 evening-class at 180',
      '1 for repair work at 15',
      '1 mug at 38 returned',
      '12 mug sea-green at 36 order o260308kt',
      '2 mug',
    ],
    grammar: {
      ...ONE_AT_PRICE,
      middle: ['product', 'class', 'glaze', 'grade', 'lot', 'for-order'],
      flags: ['returned'],
      tails: {
        ...{ at: 'price', less: 'discount', taxed: 'taxed' },
        ...{ lot: 'lot', order: 'for-order', for: 'for' },
      },
    },
  },
  {
    kind: 'sales',
    field: 'advances',
    option: 'advance',
    shape: 'ADVANCE AMOUNT',
    about: 'what this sale uses of a deposit or a certificate',
    examples: ['a260308kt 50.00'],
    grammar: { lead: 'amount', middle: ['advance'] },
  },
  {
    kind: 'advances',
    field: 'refunded',
    option: 'refunded',
    shape: 'AMOUNT [on DAY]',
    about: 'what was paid back; no day means today',
    examples: ['50.00 on 2026-04-02'],
    grammar: { lead: 'amount', tails: { on: 'date' } },
  },
  consigned('sent', 'what went to the gallery', '6 mug sea-green at 40'),
  consigned('back', 'what came back from the gallery', '2 mug'),
  consigned('missing', 'what the gallery can no longer find', '1 mug owed 24'),
  {
    kind: 'fairs',
    field: 'take',
    option: 'take',
    shape: 'COUNT PRODUCT [GLAZE] [first or second]',
    about: 'what you take along, so that the end of the day can say what is gone',
    examples: ['24 mug sea-green', '6 bowl second'],
    grammar: { lead: 'count', bare: '1', middle: ['product', 'glaze', 'grade'] },
  },
];
