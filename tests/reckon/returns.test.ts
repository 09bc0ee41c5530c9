import { describe, expect, it } from 'vitest';
import { opposite } from '../../src/number/money.ts';
import { restOf, totalOf } from '../../src/reckon/costs/cost.ts';
import { flow } from '../../src/reckon/flow.ts';
import type { Flows } from '../../src/reckon/flows.ts';
import { accountCost, soldLines } from '../helpers/accounts.ts';
import { materialValue } from '../../src/reckon/stock/where.ts';
import { bookFrom, type Files } from '../helpers/book.ts';
import { leak } from '../helpers/leak.ts';
import { told } from '../helpers/minor.ts';

/** Three cups of 1.00 in all came out first, and three of 2.00 in all last; two galleries have none. */
const STUDIO: Files = {
  studio: 'format: 1\nname: Test studio\ncurrency: USD\nstock-value: first-in\n',
  materials: 'clay: { name: Clay, kind: clay, unit: lb }',
  bought: `
b1: { date: 2026-01-01, supplier: Pit, lines: [{ material: clay, quantity: 3 lb, cost: 1.00 }] }
b2: { date: 2026-01-01, supplier: Pit, lines: [{ material: clay, quantity: 3 lb, cost: 2.00 }] }
`,
  products: `
cup: { name: Cup, fired: [once], clay: { material: clay, each: 1 lb } }
jug: { name: Jug, fired: [once] }
`,
  kilns: 'kiln: { name: Kiln, fuel: wood }',
  channels: `
door: { name: Door, kind: direct }
nook: { name: Nook, kind: consignment }
`,
  pieces: `
p1: { date: 2026-01-02, product: cup, made: 3 }
p2: { date: 2026-01-03, product: cup, made: 3 }
`,
  firings: `
f1: { date: 2026-01-04, kiln: kiln, kind: once, load: [{ lot: p1, in: 3, first: 3 }] }
f2: { date: 2026-01-05, kiln: kiln, kind: once, load: [{ lot: p2, in: 3, first: 3 }] }
`,
};

function cups(count: number, more = ''): string {
  return `{ product: cup, count: ${String(count)}, price: 9${more} }`;
}

const BACK = ', returned: yes';

/** Sales by their lines, on one day after the other from 1 February; by the door unless they say. */
function sold(...lines: readonly string[]): Flows {
  return bookSold(
    lines.map(
      (line, at) => `s${at + 1}: { date: 2026-02-0${at + 1}, channel: door, lines: [${line}] }`,
    ),
  );
}

function bookSold(sales: readonly string[], more: Files = {}): Flows {
  return flow(bookFrom({ ...STUDIO, ...more, sales: sales.join('\n') }), '2026-03-31');
}

/** From which lots a sale's first line is, and what they cost. */
function lineOf({ ware }: Flows, sale: string, index = 0): string[] {
  const lines = soldLines(ware).get(sale) ?? [];
  const { from = [], cost = {}, estimated } = lines[index] ?? {};
  const facts = [...ware.facts].filter(({ by, lot }) => by === sale && lot !== '');
  const earlier = lines.slice(0, index).flatMap((line) => line.from).length;
  const lots = from.map(({ lot, count }, at) => {
    const fact = facts[earlier + at];
    const whole = totalOf(fact?.cost ?? {});
    return `${lot} ${count} ${told((fact?.count ?? 0) < 0 ? opposite(whole) : whole)}`;
  });
  return [...lots, `${told(totalOf(cost))}${estimated ? ' estimated' : ''}`];
}

/** What is left of each lot, and where. */
function lots({ ware }: Flows): string[] {
  return [...ware.lots.values()].map(({ lot, shelf, places }) => {
    const rest = restOf(shelf);
    const where = [...places]
      .filter(([, count]) => count > 0)
      .map(([key, count]) => `${key}${count}`);
    return `${lot.id} ${rest.count} worth ${told(totalOf(rest.cost))}: ${where.join(', ')}`;
  });
}

describe('what comes back', () => {
  it('was sold last, of a line the pile taken last, and goes to its own lot at what it cost', () => {
    const flows = sold(cups(2), cups(2), cups(2, BACK));
    // 66.67 of 100; the 33 that are left and 66.67 of 200.
    expect(lineOf(flows, 's1')).toEqual(['p1 2 0.67', '0.67']);
    expect(lineOf(flows, 's2')).toEqual(['p1 1 0.33', 'p2 1 0.67', '1.00']);
    expect(lineOf(flows, 's3')).toEqual(['p2 1 0.67', 'p1 1 0.33', '-1.00']);
    expect(lots(flows)).toEqual(['p1 1 worth 0.33: first 1', 'p2 3 worth 2.00: first 3']);
  });

  it('comes back bit by bit by the running share of the line', () => {
    const flows = sold(cups(3), cups(1, BACK), cups(1, BACK), cups(1, BACK));
    const costs = ['s2', 's3', 's4'].map((sale) => lineOf(flows, sale)[0]);
    expect(costs).toEqual(['p1 1 0.33', 'p1 1 0.34', 'p1 1 0.33']);
    expect(told(totalOf(accountCost(flows.ware.facts, 'sold')))).toBe('0.00');
  });

  it('is of the later sale, of two on one day of the later id, and of its later line', () => {
    const on = (id: string, day: string, lines: string): string =>
      `${id}: { date: 2026-02-${day}, channel: door, lines: [${lines}] }`;
    const flows = bookSold([
      on('z', '01', cups(1, ', lot: p2')),
      on('b', '02', `${cups(1, ', lot: p1')}, ${cups(1, ', lot: p2')}`),
      on('a', '02', cups(1, ', lot: p1')),
      on('r', '03', cups(4, BACK)),
    ]);
    const from = soldLines(flows.ware)
      .get('r')?.[0]
      ?.from.map(({ lot }) => lot);
    expect(from).toEqual(['p2', 'p1', 'p1', 'p2']);
  });

  it('is of the lot that is named, whatever was sold after it', () => {
    const flows = sold(cups(1), cups(1, ', lot: p2'), cups(1, `, lot: p1${BACK}`));
    expect(lineOf(flows, 's3')).toEqual(['p1 1 0.33', '-0.33']);
  });

  it('has the grade that the return says', () => {
    const flows = sold(cups(1), cups(1, `, grade: second${BACK}`));
    expect(lots(flows)[0]).toBe('p1 3 worth 1.00: first 2, second 1');
  });

  it('stands at the gallery that it came back to', () => {
    const consigned = 'g1: { date: 2026-01-20, channel: nook, sent: [{ product: cup, count: 1 }] }';
    const flows = bookSold(
      [
        `s1: { date: 2026-02-01, channel: nook, lines: [${cups(1)}] }`,
        `s2: { date: 2026-02-02, channel: nook, lines: [${cups(1, BACK)}] }`,
        `s3: { date: 2026-02-03, channel: nook, lines: [${cups(1)}] }`,
      ],
      { consigned },
    );
    expect(flows.shortfalls).toEqual([]);
    expect([lineOf(flows, 's2'), lineOf(flows, 's3')]).toEqual([
      ['p1 1 0.33', '-0.33'],
      ['p1 1 0.33', '0.33'],
    ]);
  });

  it('costs like the load that came out last where it was never sold, and says so', () => {
    const flows = sold(cups(1), cups(3, BACK));
    // One of the first lot; two more at 2.00 ÷ 3.
    expect(lineOf(flows, 's2')).toEqual(['p1 1 0.33', 'p2 2 1.33', '-1.66 estimated']);
    expect(lots(flows)).toEqual(['p1 3 worth 1.00: first 3', 'p2 5 worth 3.33: first 5']);
    expect(told(leak(materialValue(flows)))).toBe('0.00');
  });

  it('is nothing that was sold of another product', () => {
    const flows = sold(cups(1), '{ product: jug, count: 1, price: 9, returned: yes }');
    expect(lineOf(flows, 's2')).toEqual(['s2/0 1 0.00', '0.00 estimated']);
  });

  it('can be sold again, and come back again', () => {
    const flows = sold(cups(6), cups(2, BACK), cups(2), cups(2, BACK), cups(2));
    const costs = ['s1', 's2', 's3', 's4', 's5'].map((sale) => lineOf(flows, sale).at(-1));
    // The last two of the second lot each time: 1.33 of 2.00.
    expect(costs).toEqual(['3.00', '-1.33', '1.33', '-1.33', '1.33']);
    expect(told(totalOf(accountCost(flows.ware.facts, 'sold')))).toBe('3.00');
  });
});

describe('pieces that are found', () => {
  function counted(count: number, ...sales: readonly string[]): Flows {
    const lines = `[{ product: cup, grade: first, count: ${String(count)} }]`;
    return bookSold(sales, { counted: `k1: { date: 2026-03-01, pieces: ${lines} }` });
  }

  it('cost what those of the lot finished last did when it came in', () => {
    const flows = counted(
      7,
      `s1: { date: 2026-02-01, channel: door, lines: [${cups(1, ', lot: p2')}] }`,
    );
    // 2.00 × 2 ÷ 3 on the 1.33 that are left.
    expect(lots(flows)[1]).toBe('p2 4 worth 2.66: first 4');
    expect(told(totalOf(accountCost(flows.ware.facts, 'differences')))).toBe('-1.33');
  });

  it('and those that are missing what is taken of the lot finished first', () => {
    const flows = counted(2);
    // All three of the first lot, and one of the second: 1.00 + 0.67.
    expect(lots(flows)).toEqual(['p1 0 worth 0.00: ', 'p2 2 worth 1.33: first 2']);
    expect(told(totalOf(accountCost(flows.ware.facts, 'differences')))).toBe('1.67');
  });
});
