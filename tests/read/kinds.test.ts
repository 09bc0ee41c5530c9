import { describe, expect, test } from 'vitest';
import { KINDS } from '../../src/book.ts';
import { isYamlName, kindOf, likelyPath } from '../../src/read/kinds.ts';

test.each(KINDS)('%s has a file of its own and a folder', (kind) => {
  for (const file of [
    `${kind}.yaml`,
    `${kind}/x.yaml`,
    `${kind}/2026/03/x y.yaml`,
    `${kind}/sales.yaml`,
  ])
    expect(kindOf(file)).toBe(kind);
});

test.each([
  'sales.yml',
  'sales/2026.yml',
  'Sales.yaml',
  'SALES/x.yaml',
  'sales',
  'old/sales.yaml',
  'sales-2026.yaml',
  'archive/studio.yaml',
  'studio/x.yaml',
  'sales.yaml.bak',
  '.yaml',
  'constructor.yaml',
])('%s belongs to no kind', (file) => {
  expect(kindOf(file)).toBeUndefined();
});

test('studio.yaml at the root is the settings', () => {
  expect(kindOf('studio.yaml')).toBe('studio');
});

test.each([
  ['a.yaml', true],
  ['a.yml', true],
  ['A.YAML', true],
  ['a.yaml~', false],
  ['yaml', false],
  ['a.json', false],
])('%s is a YAML name: %s', (name, expected) => {
  expect(isYamlName(name)).toBe(expected);
});

describe('where a stray file may belong', () => {
  test.each([
    ['sale.yaml', 'sales.yaml'],
    ['Sales.yaml', 'sales.yaml'],
    ['sales.yml', 'sales.yaml'],
    ['firing.yaml', 'firings.yaml'],
    ['matrials.yaml', 'materials.yaml'],
    ['sales/2026.yml', 'sales/2026.yaml'],
    ['Sales/2026/03.YAML', 'sales/2026/03.yaml'],
    ['firing/2026/f1.yaml', 'firings/2026/f1.yaml'],
    ['2026/sales.yaml', 'sales/2026.yaml'],
    ['2026/03/sale.yaml', 'sales/2026-03.yaml'],
    ['studio.yml', 'studio.yaml'],
    ['stduio.yaml', 'studio.yaml'],
    ['docker-compose.yaml', undefined],
    ['notes/plans.yaml', undefined],
    ['archive/studio.yaml', undefined],
  ])('%s: %s', (file, expected) => {
    expect(likelyPath(file)).toBe(expected);
  });
});
