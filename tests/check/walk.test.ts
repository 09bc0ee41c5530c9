import { expect, test } from 'vitest';
import { KINDS } from '../../src/book.ts';
import { faultFinder, type FieldFault, type FieldTest } from '../../src/check/walk.ts';
import { bookFrom } from '../helpers/book.ts';

const BOOK = bookFrom({
  mixed:
    'm1: { date: 2026-01-01, recipe: clear, base-weight: 1 kg, lots: { silica: A1, chalk: A2 } }',
  firings:
    'f1: { date: 2026-01-02, kiln: shed, kind: raku, fuel-used: { material: propane, quantity: 2 kg }, load: [{ lot: p1, in: 1 }, { class: spring, in: 2 }] }\n' +
    'f2: { date: 2026-01-03, kiln: shed, kind: raku, fuel-used: 3 kg, load: [] }',
  sales:
    's1: { date: 2026-01-04, channel: market, fee: 1.00, lines: [{ for: rent, count: 1, price: 2.00 }, { for: rent, count: 1, price: 3.00, discount: 4.00 }] }',
});

function findIn(looked: FieldTest): readonly FieldFault[] {
  const find = faultFinder(looked);
  return KINDS.flatMap((kind) =>
    [...BOOK[kind].values()].flatMap((record) => find(kind, record, BOOK)),
  );
}

test('goes to every value of the wanted sort, and names its path as in the file', () => {
  const found = findIn({
    wants: (spec) => spec.type === 'reference',
    tester: () => () => false,
  });
  expect(found.map(({ record, path, value }) => [record.id, path.join('/'), value])).toEqual([
    ['m1', 'recipe', 'clear'],
    ['f1', 'kiln', 'shed'],
    ['f1', 'fuel-used/material', 'propane'],
    ['f1', 'load/0/lot', 'p1'],
    ['f1', 'load/1/class', 'spring'],
    ['f2', 'kiln', 'shed'],
    ['s1', 'channel', 'market'],
  ]);
});

test('takes the keys of a map for values where its spec is wanted', () => {
  const found = findIn({
    wants: (spec) => spec.type === 'map' && spec.keysTo !== undefined,
    tester: () => (value) => value !== 'chalk',
  });
  expect(found.map(({ path, value, isKey }) => [path.join('/'), value, isKey])).toEqual([
    ['lots/chalk', 'chalk', true],
  ]);
});

test('finds what fails beside what passes', () => {
  const found = findIn({
    wants: (spec) => spec.type === 'amount',
    tester: () => (value) => String(value) !== '3',
  });
  expect(found.map(({ path }) => path.join('/'))).toEqual(['lines/1/price']);
});
