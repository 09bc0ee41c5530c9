import { describe, expect, it } from 'vitest';
import { changesSince, withFaulty } from '../../src/review/changes.ts';
import { bookFrom, type Files } from '../helpers/book.ts';

function changes(before: Files, after: Files): unknown[] {
  return changesSince(bookFrom(before), bookFrom(after)).map(
    ({ id, became, was, fields, follows }) => [
      was === undefined ? id : `${was} → ${id}`,
      became,
      ...fields.map(
        ({ path, item }) => `${path.join('.')}${item === undefined ? '' : ` (${item})`}`,
      ),
      ...(follows.length === 0 ? [] : [`${String(follows.length)} follow`]),
    ],
  );
}

const SALE = `s1:
  date: 2026-03-01
  channel: door
  lines:
    - { product: mug, count: 2, price: 40.00 }
    - { product: bowl, count: 1, price: 30 }
`;

function sales(...replaced: [string, string][]): Files {
  return { sales: replaced.reduce((text, [from, to]) => text.replace(from, to), SALE) };
}

describe('changes by meaning', () => {
  it.each<[string, Files, Files]>([
    ['trailing zeros of money', sales(), sales(['40.00', '40.0'], ['price: 30', 'price: 30.00'])],
    ['quotes', sales(), sales(['price: 30', 'price: "30"'], ['door', '"door"'])],
    ['comments and empty lines', sales(), sales(['date:', '# a word\n\n  date:'])],
    ['the order of keys', sales(), sales(['product: mug, count: 2', 'count: 2, product: mug'])],
    [
      'the order of lines',
      sales(),
      sales(
        ['    - { product: mug, count: 2, price: 40.00 }\n', ''],
        ['price: 30 }\n', 'price: 30 }\n    - { product: mug, count: 2, price: 40.00 }\n'],
      ),
    ],
    [
      'layout of lists',
      sales(),
      sales([
        '- { product: bowl, count: 1, price: 30 }',
        '- product: bowl\n      count: 1\n      price: 30',
      ]),
    ],
    [
      'units of one weight',
      { used: 'u1: { date: 2026-01-01, material: a, quantity: 4 x 25 lb }\n' },
      { used: 'u1: { date: 2026-01-01, material: a, quantity: 100 lb }\n' },
    ],
    [
      'kilograms in grams',
      { used: 'u1: { date: 2026-01-01, material: a, quantity: 1.5 kg }\n' },
      { used: 'u1: { date: 2026-01-01, material: a, quantity: 1500 g }\n' },
    ],
    [
      'half cones',
      { firings: 'f1: { date: 2026-01-01, kiln: k, kind: glaze, cone: "5½", load: [] }\n' },
      { firings: 'f1: { date: 2026-01-01, kiln: k, kind: glaze, cone: "5 1/2", load: [] }\n' },
    ],
  ])('%s make none', (_, before, after) => {
    expect(changes(before, after)).toEqual([]);
  });

  it('a text that looks like a number is a text', () => {
    const bill = (invoice: string): Files => ({
      bought: `b1: { date: 2026-01-01, supplier: A, invoice: ${invoice}, lines: [] }\n`,
    });
    expect(changes(bill('"0044"'), bill('"44"'))).toEqual([['b1', 'changed', 'invoice']]);
    expect(changes(bill('"12E5"'), bill('"1200000"'))).toEqual([['b1', 'changed', 'invoice']]);
  });

  it('cones are texts of their own: 04 is not 4', () => {
    const fired = (cone: string): Files => ({
      firings: `f1: { date: 2026-01-01, kiln: k, kind: glaze, cone: "${cone}", load: [] }\n`,
    });
    expect(changes(fired('04'), fired('4'))).toEqual([['f1', 'changed', 'cone']]);
  });

  it('the order of firings and glazes is one', () => {
    const product = (fired: string): Files => ({ products: `m: { name: M, fired: [${fired}] }\n` });
    expect(changes(product('bisque, glaze'), product('glaze, bisque'))).toEqual([
      ['m', 'changed', 'fired'],
    ]);
  });
});

describe('changes field by field', () => {
  it('are told at the line that has the new value', () => {
    expect(changes(sales(), sales(['price: 30', 'price: 3.0']))).toEqual([
      ['s1', 'changed', 'lines.1.price (bowl)'],
    ]);
  });

  it('lines are paired by what they are of, wherever they stand', () => {
    const after = {
      sales: `s1:
  date: 2026-03-01
  channel: door
  lines:
    - { product: vase, count: 1, price: 90 }
    - { product: bowl, count: 4, price: 30 }
    - { product: mug, count: 2, price: 40 }
`,
    };
    expect(changes(sales(), after)).toEqual([
      ['s1', 'changed', 'lines.1.count (bowl)', 'lines.0 (vase)'],
    ]);
    expect(changes(after, sales())).toEqual([
      ['s1', 'changed', 'lines.1.count (bowl)', 'lines.0 (vase)'],
    ]);
  });

  it('a field that came and one that went', () => {
    expect(changes(sales(), sales(['lines:', 'buyer: X\n  lines:']))).toEqual([
      ['s1', 'changed', 'buyer'],
    ]);
    expect(changes(sales(['lines:', 'buyer: X\n  lines:']), sales())).toEqual([
      ['s1', 'changed', 'buyer'],
    ]);
  });

  it('settings', () => {
    const studio = (through: string): Files => ({
      studio: `format: 1\nname: T\ncurrency: USD\nclosed-through: ${through}\n`,
    });
    expect(changes(studio('2026-03-31'), studio('2025-12-31'))).toEqual([
      ['', 'changed', 'closed-through'],
    ]);
  });
});

describe('what became of records', () => {
  it('came and went', () => {
    expect(changes(sales(), {})).toEqual([['s1', 'removed']]);
    expect(changes({}, sales())).toEqual([['s1', 'added']]);
  });

  it('another id with the same content is a renaming, and what names it follows', () => {
    const book = (id: string, name = 'Mug'): Files => ({
      ...sales(['product: mug', `product: ${id}`]),
      products: `${id}: { name: ${name}, price: 40 }\n`,
    });
    expect(changes(book('mug'), book('cup'))).toEqual([
      ['mug → cup', 'renamed'],
      ['s1', 'changed', '1 follow'],
    ]);
    expect(changes(book('mug'), book('cup', 'Cup'))).toEqual([
      ['mug → cup', 'renamed', 'name'],
      ['s1', 'changed', '1 follow'],
    ]);
  });

  it('one that went and an unlike one that came are two', () => {
    expect(
      changes({ products: 'mug: { name: Mug }\n' }, { products: 'vase: { name: Vase }\n' }),
    ).toEqual([
      ['mug', 'removed'],
      ['vase', 'added'],
    ]);
  });

  it('twins are renamed one by one', () => {
    const day = '{ date: 2026-01-01, to: A, for: bank, amount: 1 }';
    expect(
      changes({ spent: `a: ${day}\nb: ${day}\n` }, { spent: `c: ${day}\nd: ${day}\n` }),
    ).toEqual([
      ['a → c', 'renamed'],
      ['b → d', 'renamed'],
    ]);
  });

  it('in another file it was moved', () => {
    const old = bookFrom(sales());
    const now = bookFrom(sales());
    const [sale] = now.sales.values();
    if (!sale) throw new Error('no sale');
    const moved = { ...now, sales: new Map([['s1', { ...sale, file: 'sales/2026.yaml' }]]) };
    expect(changesSince(old, moved).map(({ became, id }) => [became, id])).toEqual([
      ['moved', 's1'],
    ]);
  });

  it('a record that is only left out for its faults is neither gone nor new', () => {
    const none = { ids: new Set<string>(), files: new Set<string>() };
    const faulty = { ids: new Set(['s1']), files: new Set<string>() };
    const broken = { ids: new Set<string>(), files: new Set(['sales.yaml']) };
    const gone = changesSince(bookFrom(sales()), bookFrom({}));
    const come = changesSince(bookFrom({}), bookFrom(sales()));
    const became = (list: ReturnType<typeof withFaulty>): string[] =>
      list.map((each) => each.became);
    expect(became(withFaulty(gone, { old: none, now: faulty }))).toEqual(['unsound']);
    expect(became(withFaulty(gone, { old: none, now: broken }))).toEqual(['unsound']);
    expect(became(withFaulty(come, { old: faulty, now: none }))).toEqual(['sound']);
    expect(became(withFaulty(gone, { old: faulty, now: none }))).toEqual(['removed']);
  });
});
