/** What the benchmark writes into its own copy of a studio: a record of every kind, and changes of them. */
import { AS_OF } from './grow.js';
import { DEFINITION_KINDS, EVENT_KINDS } from './catalogue.js';
import { GALLERIES } from './grow-definitions.js';

/** @import { Kind } from '../../src/book.ts' */

/**
 * A command line that writes, with the text that it gets and when what it writes is of.
 * @typedef {object} Deed
 * @property {string} name
 * @property {readonly string[]} words
 * @property {'today' | 'year' | 'all'} when
 * @property {string} [input]
 */

/**
 * A record of each kind without its date.
 * @type {Readonly<Record<Kind, string>>}
 */
const RECORDS = {
  materials: 'name: Sharp sand\nkind: other\nunit: kg\n',
  recipes:
    'name: Plain\nkind: glaze\nversions:\n  - from: 2025-12-31\n    base:\n      - { material: feldspar, parts: 1 }\n',
  products: 'name: Egg cup\nprice: 14\n',
  classes: 'name: Slips\nstarts: 2025-12-31\n',
  kilns: 'name: Top loader\nfuel: electricity\n',
  tariffs: 'from: 2025-12-31\nfuel: propane\nprice: 2.10\nper: kg\n',
  channels: 'name: Winter shop\nkind: direct\n',
  bought:
    'supplier: Hill Clay Merchants\nlines:\n  - { material: feldspar, quantity: 25 kg, cost: 55 }\n',
  reclaimed: 'material: stoneware\nquantity: 4 kg\n',
  mixed: 'recipe: clear\nbase-weight: 500 g\n',
  pieces: 'product: mug\nmade: 12\n',
  firings: 'kiln: front-loader\nkind: bisque\nload:\n  - { lot: LOT, in: 12 }\n',
  used: 'material: feldspar\nquantity: 1 kg\nfor: studio\n',
  counted: 'materials:\n  - { material: quartz, quantity: 20 kg }\n',
  orders: 'buyer: Puddle Coffee\nlines:\n  - { product: mug, count: 6, price: 32 }\n',
  sales: 'channel: studio-door\nlines:\n  - { product: mug, count: 1, price: 32 }\n',
  advances: 'for: deposit\namount: 50\n',
  consigned: `channel: ${GALLERIES[0] ?? ''}\nsent:\n  - { product: mug, count: 1 }\n`,
  fairs: 'name: Winter fair\nchannel: market\n',
  spent: 'to: Paper Corner\nfor: office\namount: 12\n',
  tests: 'kind: tile\nrecipe: clear\n',
  filed: 'period: 2024\nsheet: plain\nlines: { "1": 12 }\n',
};

/**
 * One after the other: records of today and of eleven months back, changes of them, and of definitions.
 * @returns {Deed[]}
 */
export function deeds() {
  const written = /** @type {const} */ ([
    ['today', AS_OF],
    ['year', '2025-02-03'],
  ]).flatMap(([when, date]) => [
    ...EVENT_KINDS.map((kind) => adding(kind, when, date)),
    change(when, 'unload', ['unload', `firings-${when}`, '--line', '12 first']),
    change(when, 'amend lines.1.count=2', ['amend', `sales-${when}`, 'lines.1.count=2']),
    change(when, 'gone', ['gone', '1 mug', '--why', 'broken', '--date', date, '--no-input']),
    change(when, 'remove', ['remove', `sales-${when}`]),
  ]);
  return [
    ...written,
    change('today', 'add sales --closing', CLOSING),
    ...DEFINITION_KINDS.map((kind) => adding(kind, 'today', undefined)),
    change('today', 'revise clear', REVISION),
    ...[
      'amend mug price=33',
      `amend mug price=34 --from ${AS_OF}`,
      'quarter 2025-Q3 --filed --sheet plain',
    ].map((line) => change('today', line, line.split(' '))),
    change('all', 'amend mug space=1.5', 'amend mug space=1.5'.split(' ')),
  ];
}

// At the fair of today, which was written before: four mugs at 32.
const CLOSING = [
  ...`add sales --closing --fair fairs-today --date ${AS_OF} --took`.split(' '),
  ...['24 mug', '--back', '20 mug'],
  ...'--cash 128 --float 0 --no-input'.split(' '),
];

// What was mixed today is then by the new version.
const REVISION = [
  'revise',
  'clear',
  'feldspar 41',
  '--from',
  AS_OF,
  '--even-if-mixed',
  '--no-input',
];

/** @type {(kind: Kind, when: Deed['when'], date: string | undefined) => Deed} */
function adding(kind, when, date) {
  const record = RECORDS[kind].replace('LOT', `pieces-${when}`);
  const words = ['add', kind, '-', '--no-input', '--id', `${kind}-${when}`];
  return { name: `add ${kind}`, words, when, input: date ? `date: ${date}\n${record}` : record };
}

/** @type {(when: Deed['when'], name: string, words: readonly string[]) => Deed} */
const change = (when, name, words) => ({ name, words, when });
