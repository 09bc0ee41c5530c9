import { describe, expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { galleryStandings } from '../../src/reckon/ware/gallery.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

const BOOK = bookFrom({
  products: 'cup: { name: Cup, fired: [once], price: 18, second: 9 }',
  kilns: 'kiln: { name: Kiln, fuel: wood }',
  channels: `
nook: { name: Nook, kind: consignment, commission: 40% }
loft: { name: Loft, kind: consignment }
door: { name: Door, kind: direct }
`,
  pieces: 'p1: { date: 2026-01-01, product: cup, made: 20 }',
  firings:
    'f1: { date: 2026-01-02, kiln: kiln, kind: once, load: [{ lot: p1, in: 20, first: 18, second: 2 }] }',
  consigned: `
g1: { date: 2026-02-01, channel: nook, sent: [{ product: cup, count: 4, price: 20 }] }
g2: { date: 2026-03-01, channel: nook, sent: [{ product: cup, count: 3 }, { product: cup, grade: second, count: 1 }] }
g3: { date: 2026-04-01, channel: nook, missing: [{ product: cup, count: 2, owed: 25 }] }
`,
  sales: `
s1: { date: 2026-03-10, channel: nook, paid: no, discount: 2, lines: [{ product: cup, count: 3, price: 20 }] }
s2: { date: 2026-03-12, channel: door, paid: no, lines: [{ product: cup, count: 1, price: 18 }] }
`,
});

function figures(asOf: string): unknown {
  return galleryStandings(BOOK, flow(BOOK, asOf)).map((each) => {
    const { gallery, sent, sold, missing, here, oldest } = each;
    const { value, takings, commission, unpaid, owedForMissing } = each;
    const money = [value, takings, commission, unpaid, owedForMissing];
    return [gallery.id, sent, sold, missing, here, oldest, ...money.map((sum) => told(sum))];
  });
}

describe('how a gallery stands', () => {
  it('at the prices at which ware was sent, else the prices of the product', () => {
    // Four at 20, three at 18 and a second at 9.
    expect(figures('2026-03-01')).toEqual([
      ['nook', 8, 0, 0, 8, 28, '143.00', '0.00', '0.00', '0.00', '0.00'],
      ['loft', 0, 0, 0, 0, undefined, '0.00', '0.00', '0.00', '0.00', '0.00'],
    ]);
  });

  it('with what it sold, kept and owes, also for what is missing, and how long the oldest piece is there', () => {
    // 60 less 2, 40 % of that kept: 34.80 is due; a cup of the first delivery and one of the second
    // are missing, for 25 that are not paid either: 59.80.
    const [nook] = figures('2026-04-01') as unknown[];
    expect(nook).toEqual(['nook', 8, 3, 2, 3, 31, '45.00', '58.00', '23.20', '59.80', '25.00']);
  });

  it('with shares of each delivery that add up to what a line says', () => {
    const [nook] = galleryStandings(BOOK, flow(BOOK, '2026-04-01'));
    const owed = nook?.deliveries.map((each) => told(each.owedForMissing));
    expect(owed).toEqual(['12.50', '12.50', '0.00']);
    expect(nook?.deliveries.map(({ takings }) => told(takings))).toEqual(['58.00', '0.00', '0.00']);
  });
});
