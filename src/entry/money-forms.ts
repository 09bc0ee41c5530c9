/** The sentences of sales, advances, consignments and fairs, which `forms.ts` puts among the others. */
import type { Form } from './forms.ts';

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
      lead: 'count',
      middle: WARE,
      tails: { at: 'price', lot: 'lot', ...(isMissing ? { owed: 'owed', paid: 'paid' } : {}) },
    },
  };
}

/** In the order of the kinds. */
export const MONEY_FORMS: readonly Form[] = [
  {
    kind: 'sales',
    field: 'lines',
    option: 'line',
    shape:
      'COUNT PRODUCT or CLASS or for WORDS [GLAZE] [first or second] [LOT] [at PRICE] [less DISCOUNT] [taxed YES or NO] [returned]',
    about:
      "the price is for one; left out it is the lot's or the product's own: the second's price for a second, the wholesale price on a wholesale channel, the fee of a class",
    examples: [
      '2 mug at 38',
      '1 mug sea-green second at 20 less 2.00',
      '3 bowl lot p260301ab at 44',
      '2 evening-class at 180',
      '1 for repair work at 15',
      '1 mug at 38 returned',
      '2 mug',
    ],
    grammar: {
      lead: 'count',
      middle: ['product', 'class', 'glaze', 'grade', 'lot'],
      flags: ['returned'],
      tails: { at: 'price', less: 'discount', taxed: 'taxed', lot: 'lot', for: 'for' },
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
    grammar: { lead: 'count', middle: ['product', 'glaze', 'grade'] },
  },
];
