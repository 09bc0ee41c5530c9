import { describe, expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { materialHistory } from '../../src/report/materials.ts';
import { soldLines } from '../helpers/accounts.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

/** A litre of varnish for 1.00 and then one for 3.00; a mug takes a litre, a jug as much. */
function sold(each: string, sales: readonly string[]) {
  const book = bookFrom({
    studio: 'format: 1\nname: Test studio\ncurrency: USD\nstock-value: first-in\n',
    materials: 'varnish: { name: Varnish, kind: packing, unit: L }',
    bought: `
b1: { date: 2026-01-01, supplier: Pit, lines: [{ material: varnish, quantity: 1 L, cost: 1.00 }] }
b2: { date: 2026-01-02, supplier: Pit, lines: [{ material: varnish, quantity: 1 L, cost: 3.00 }] }
`,
    products: `
mug: { name: Mug, fired: [once], packing: [{ material: varnish, each: 1 L }] }
jug: { name: Jug, fired: [once], packing: [{ material: varnish, each: ${each} }] }
`,
    channels: 'door: { name: Door, kind: direct }',
    sales: sales
      .map(
        (lines, at) => `s${String(at + 1)}: { date: 2026-02-01, channel: door, lines: [${lines}] }`,
      )
      .join('\n'),
  });
  const flows = flow(book, '2026-02-01');
  const costs = [...soldLines(flows.ware).values()].flatMap((lines) =>
    lines.map(({ cost }) => told(cost.packing)),
  );
  const history = materialHistory(book, flows, 'varnish')?.rows ?? [];
  const rows = history.map((row) => `${String(row['record'])} ${String(row['change'])}`);
  return { costs, rows: rows.filter((row) => row.startsWith('s')) };
}

const MUG = '{ product: mug, count: 1, price: 9 }';
const JUG = '{ product: jug, count: 1, price: 9 }';

describe.each(['1 L', '1000 mL'])('packing of %s', (each) => {
  it('is drawn sale by sale of a day: the first sale takes what was bought first', () => {
    expect(sold(each, [JUG, MUG])).toEqual({ costs: ['1.00', '3.00'], rows: ['s1 -1', 's2 -1'] });
    expect(sold(each, [MUG, JUG])).toEqual({ costs: ['1.00', '3.00'], rows: ['s1 -1', 's2 -1'] });
  });

  it('is drawn once for the lines of a sale, which share it by quantity', () => {
    // 4.00 for two litres, by two alike.
    expect(sold(each, [`${MUG}, ${JUG}`])).toEqual({ costs: ['2.00', '2.00'], rows: ['s1 -2'] });
  });

  it('of a line that comes back is neither drawn nor given back', () => {
    const back = '{ product: jug, count: 1, price: 9, returned: yes }';
    expect(sold(each, [MUG, back, JUG])).toEqual({
      costs: ['1.00', undefined, '3.00'],
      rows: ['s1 -1', 's3 -1'],
    });
  });
});
