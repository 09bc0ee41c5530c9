/** What the check says of freight by weight where something else is wrong with a line. */
import { expect, test } from 'vitest';
import { checkFiles } from '../helpers/check-files.ts';

function problems(lines: string): string[] {
  const { findings } = checkFiles(
    {
      'studio.yaml': 'format: 1\nname: Lane End Pottery\ncurrency: USD\n',
      'materials.yaml':
        'porcelain: { name: Porcelain, kind: clay, unit: kg }\ncone-6: { name: Cone 6, kind: cone, unit: each }\n',
      'bought.yaml': `b1: { date: 2026-01-02, supplier: Pit, freight: 12, share-freight-by: weight, lines: [${lines}] }\n`,
    },
    '2026-02-01',
  );
  return findings.map(({ rule, at }) => `${rule} ${'path' in at ? at.path.join('.') : ''}`);
}

const CLAY = '{ material: porcelain, quantity: 25 kg, cost: 61 }';

test('each line without a weight is one problem', () => {
  const cones = '{ material: cone-6, quantity: 200, cost: 40 }';
  expect(problems(`${CLAY}, ${cones}, ${cones}`)).toEqual([
    'freight-weight-missing b1.lines.1',
    'freight-weight-missing b1.lines.2',
  ]);
});

test('a clay that is counted is a bad unit and nothing more: in kg it has a weight', () => {
  expect(problems(`${CLAY}, { material: porcelain, quantity: 2, cost: 5 }`)).toEqual([
    'bad-unit b1.lines.1.quantity',
  ]);
});

test('a weight that can’t be read is a problem of its own and nothing more', () => {
  expect(problems(`${CLAY}, { material: cone-6, quantity: 200, cost: 5, weight: 3 L }`)).toEqual([
    'schema b1.lines.1.weight',
  ]);
});
