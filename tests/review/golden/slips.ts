/** Invented pull requests that look harmless: one word or one figure of the example studio is another. */
import { append, edit, type Work } from './edits.ts';

type FromTo = readonly [from: string, to: string];

const inFile =
  (file: string, ...edits: readonly FromTo[]): Work =>
  (folder) => {
    for (const each of edits) edit(folder, file, each);
  };

const noteAndTest: Work = (folder) => {
  edit(folder, 'sales/2026-01.yaml', [
    's260107yf:\n  date: 2026-01-07\n',
    's260107yf:\n  date: 2026-01-07\n  note: A wedding present, sent in two boxes.\n',
  ]);
  append(
    folder,
    'tests/2025-11.yaml',
    `t251122zz:
  date: 2025-11-22
  kind: dishwasher
  lot: p250812pf
  result: Forty washes, and no change that an eye can see.
`,
  );
};

const largeSale: Work = (folder) => {
  for (const [id, price] of [
    ['s260629va', '32.00'],
    ['s260629vb', '32.00'],
    ['s260629vc', '99999.00'],
    ['s260629vd', '32.00'],
  ])
    append(
      folder,
      'sales/2026-06.yaml',
      `${id ?? ''}:
  date: 2026-06-29
  channel: online
  buyer: by post
  lines:
    - { product: bud-vase, glaze: sea-green, count: 1, price: ${price ?? ''} }
`,
    );
};

/** By the name of the golden file. */
export const SLIPS: Readonly<Record<string, Work>> = {
  'other-currency': inFile('studio.yaml', ['currency: USD', 'currency: EUR']),
  'other-basis': inFile('studio.yaml', ['basis: cash', 'basis: accrual']),
  'other-stock-value': inFile('studio.yaml', ['stock-value: average', 'stock-value: first-in']),
  'other-year': inFile('studio.yaml', ['year-starts: "01-01"', 'year-starts: "04-06"']),
  'dearer-hours': inFile('studio.yaml', ['labour-rate: 24.00', 'labour-rate: 30.00']),
  'more-clay': inFile('products.yaml', ['each: 1.1 lb', 'each: 1.4 lb']),
  'later-elements': inFile(
    'kilns.yaml',
    ['replaced: 2025-07-28', 'replaced: 2025-11-28'],
    ['fitted: 2025-07-28', 'fitted: 2025-11-28'],
  ),
  'pounds-to-kilos': inFile('bought/2026-04.yaml', ['20 x 25 lb', '20 x 25 kg']),
  'higher-commission': inFile('channels.yaml', ['commission: 40%', 'commission: 45%']),
  'door-as-wholesale': inFile('sales/2026-01.yaml', [
    's260123ue:\n  date: 2026-01-23\n  channel: door',
    's260123ue:\n  date: 2026-01-23\n  channel: hobbin-lane',
  ]),
  'other-category': inFile('spent/2026-03.yaml', ['for: travel', 'for: education']),
  'sales-tax-slip': inFile('sales/2026-05.yaml', ['tax: 5.98', 'tax: 0.98']),
  'later-refund': inFile('sales/2025-12.yaml', [
    's251218xp:\n  date: 2025-12-18',
    's251218xp:\n  date: 2026-01-02',
  ]),
  'note-and-test': noteAndTest,
  'split-load': inFile('firings/2026/f260511cq.yaml', [
    '- { lot: p260421vx, in: 17, first: 15, lost: 2, why: { cracked: 2 }, space: 0.6 }',
    `- { lot: p260421vx, in: 10, first: 9, lost: 1, why: { cracked: 1 }, space: 0.6 }
    - { lot: p260421vx, in: 7, first: 6, lost: 1, why: { cracked: 1 }, space: 0.6 }`,
  ]),
  'more-lead': inFile('tests/2025-11.yaml', ['lead: under 0.02 µg/mL', 'lead: 2.0 µg/mL']),
  'hotter-cone': inFile('firings/2026/f260511cq.yaml', ['cone: "05"', 'cone: "5"']),
  'large-sale': largeSale,
};
