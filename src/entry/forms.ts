/** How a list's item or a small record is typed as one sentence: the table behind options, help and docs. */
import type { Kind } from '../book.ts';
import { ENTRY_KEY, ENTRY_VALUE, type Form } from './form.ts';
import { SELLING_FORMS } from './selling-forms.ts';

const GLAZE: Omit<Form, 'kind'> = {
  field: 'glazes',
  option: 'glaze',
  shape: 'WEIGHT RECIPE [where WORDS]',
  about: 'glaze on one piece, in dry weight',
  examples: ['30 g sea-green', '12 g iron-wash where on the rim'],
  grammar: { lead: 'each', middle: ['recipe'], tails: { where: 'where' } },
};

/** Every form, in the order of the kinds. */
export const FORMS: readonly Form[] = [
  {
    kind: 'materials',
    field: 'analysis',
    option: 'analysis',
    shape: 'PERCENT OXIDE',
    about: 'what the supplier says it is made of',
    examples: ['64.5% SiO2'],
    grammar: { lead: ENTRY_VALUE, rest: ENTRY_KEY },
  },
  {
    kind: 'recipes',
    field: 'versions.base',
    option: 'base',
    shape: 'PARTS MATERIAL',
    about: 'parts by weight of any total; they are brought to 100',
    examples: ['40 feldspar'],
    grammar: { lead: 'parts', middle: ['material'] },
  },
  {
    kind: 'recipes',
    field: 'versions.additions',
    option: 'addition',
    shape: 'PERCENT MATERIAL',
    about: 'on top of the 100 of the base',
    examples: ['2% cobalt'],
    grammar: { lead: 'percent', middle: ['material'] },
  },
  { kind: 'products', ...GLAZE },
  {
    kind: 'products',
    field: 'packing',
    option: 'packing',
    shape: 'QUANTITY MATERIAL',
    about: 'what one piece is packed in when it is sold',
    examples: ['1 box-small', '40 g paper'],
    grammar: { lead: 'each', middle: ['material'] },
  },
  {
    kind: 'kilns',
    field: 'duty',
    option: 'duty',
    shape: 'PERCENT FIRING-KIND',
    about: 'share of the rated power that such a firing draws on average',
    examples: ['50% bisque'],
    grammar: { lead: ENTRY_VALUE, middle: [ENTRY_KEY] },
  },
  {
    kind: 'kilns',
    field: 'wear',
    option: 'wear',
    shape: 'PART for COST over NUMBER firings [fitted DAY] [replaced DAY]',
    about: 'a part that wears out, what it cost and how many firings it is expected to last',
    examples: ['elements for 240 over 150 firings fitted 2025-11-02'],
    grammar: {
      lead: 'part',
      tails: { for: 'cost', over: 'firings', fitted: 'fitted', replaced: 'replaced' },
      skips: ['firings'],
    },
  },
  {
    kind: 'tariffs',
    field: 'bands',
    option: 'band',
    shape: 'HOURS [DAYS] at PRICE',
    about: 'hours that have a price of their own; no days means every day',
    examples: ['16:00-21:00 mon tue wed thu fri at 0.42'],
    grammar: { lead: 'hours', middle: ['days'], tails: { at: 'price' } },
  },
  {
    kind: 'bought',
    field: 'lines',
    option: 'line',
    shape: 'QUANTITY MATERIAL for COST [lot NUMBER] [weight WEIGHT]',
    about:
      "the cost is the line's total; the lot is the number on the bag; the weight is the whole line's, where freight is shared by weight",
    examples: [
      '4 x 25 lb buff-stoneware for 92.00 lot 7734',
      '200 cone-6 for 18.50',
      '200 cone-6 for 18.50 weight 3 kg',
    ],
    grammar: {
      lead: 'quantity',
      loose: 'cost',
      middle: ['material'],
      tails: { for: 'cost', lot: 'lot', weight: 'weight' },
    },
  },
  {
    kind: 'mixed',
    field: 'lots',
    option: 'lot',
    shape: 'MATERIAL LOT',
    about: 'the bag that a material was taken from: its number, or the id of the purchase',
    examples: ['kaolin 7734'],
    grammar: { middle: [ENTRY_KEY], rest: ENTRY_VALUE },
  },
  { kind: 'pieces', ...GLAZE },
  {
    kind: 'pieces',
    field: 'mixes',
    option: 'mix',
    shape: 'RECIPE MIX',
    about: 'the mix that a glaze was taken from',
    examples: ['sea-green m260301kt'],
    grammar: { middle: [ENTRY_KEY], rest: ENTRY_VALUE },
  },
  {
    kind: 'pieces',
    field: 'lost',
    option: 'lost',
    shape: 'COUNT CAUSE [on DAY]',
    about: "lost outside a firing; no day means the lot's own",
    examples: ['2 cracked on 2026-03-04'],
    grammar: { lead: 'count', bare: '1', middle: ['why'], tails: { on: 'date' } },
  },
  {
    kind: 'pieces',
    field: 'gone',
    option: 'gone',
    shape: 'COUNT HOW [first or second] [at CHANNEL] [FAIR] [on DAY] [note WORDS]',
    about: "finished ware that left unsold; no day means the lot's own",
    examples: ['1 gift on 2026-04-01', '1 broken second at gallery on 2026-04-20 note fell over'],
    grammar: {
      lead: 'count',
      bare: '1',
      middle: ['how', 'grade', 'fair'],
      tails: { at: 'channel', on: 'date', fair: 'fair', note: 'note' },
    },
  },
  {
    kind: 'firings',
    field: 'fuel-used',
    option: 'fuel-used',
    shape: 'QUANTITY [MATERIAL]',
    about: 'with a material it is drawn from stock, else the tariff prices it',
    examples: ['8.2 m3-gas', '12 lb propane'],
    grammar: { lead: 'quantity', middle: ['material'] },
  },
  {
    kind: 'firings',
    field: 'supplies',
    option: 'supply',
    shape: 'QUANTITY MATERIAL',
    about: 'cones, kiln wash, wadding',
    examples: ['3 cone-6', '200 g kiln-wash'],
    grammar: { lead: 'quantity', middle: ['material'] },
  },
  {
    kind: 'firings',
    field: 'load',
    option: 'in',
    shape: 'COUNT LOT or CLASS or for WORDS [OUTCOME] [refire] [space NUMBER] [shelf WORDS]',
    about:
      "for is a customer's own ware; the outcome is counts of first, second, lost and of causes, those of lost pieces after lost-to; left out while it is in the kiln",
    examples: [
      '24 p260301ab',
      '6 evening-class',
      "4 for neighbour's bowls",
      '24 p260301ab 22 first 1 second 1 lost 1 cracked',
      '24 p260301ab 21 first 2 second 1 lost 2 ran lost-to 1 stuck',
      '3 p260301ab refire',
    ],
    grammar: {
      lead: 'in',
      middle: ['lot', 'class'],
      flags: ['refire'],
      tails: { for: 'outside', space: 'space', shelf: 'shelf' },
      outcome: true,
    },
  },
  {
    kind: 'counted',
    field: 'materials',
    option: 'material',
    shape: 'QUANTITY MATERIAL [for COST] [why WORDS]',
    about:
      'what was there at the end of the day; a recipe means its bucket; with a cost, what the book begins with',
    examples: [
      '37.5 lb buff-stoneware',
      '0 kg kaolin why the bag was wet',
      '50 kg kaolin for 61.50',
    ],
    grammar: { lead: 'quantity', middle: ['material'], tails: { for: 'cost', why: 'why' } },
  },
  {
    kind: 'counted',
    field: 'pieces',
    option: 'piece',
    shape:
      'COUNT PRODUCT [LOT] [STAGE] [GLAZE] [first or second] [at CHANNEL] [for COST] [why WORDS]',
    about:
      'finished ware; no channel means the studio; with a cost, what the book begins with, then a lot and greenware or bisqueware too',
    examples: [
      '12 mug sea-green first at gallery',
      '5 bowl',
      '20 mug p260301ab bisqueware for 61.50',
    ],
    grammar: {
      lead: 'count',
      middle: ['product', 'lot', 'stage', 'glaze', 'grade'],
      tails: { at: 'place', for: 'cost', why: 'why' },
    },
  },
  ...SELLING_FORMS,
  {
    kind: 'filed',
    field: 'lines',
    option: 'line',
    shape: 'AMOUNT LINE',
    about: 'what was filed on a line of the sheet, which is named by its number or its name there',
    examples: ['4980.25 31', '-210 net-profit'],
    grammar: { lead: ENTRY_VALUE, rest: ENTRY_KEY },
  },
];

/** The form of a kind's field, named as in `Form`. */
export function formOf(kind: Kind, field: string): Form | undefined {
  return FORMS.find((form) => form.kind === kind && form.field === field);
}
