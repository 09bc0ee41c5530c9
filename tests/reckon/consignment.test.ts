import { describe, expect, it } from 'vitest';
import { deliveries } from '../../src/reckon/ware/consignment.ts';
import { flow } from '../../src/reckon/flow.ts';
import { piecesAt } from '../../src/reckon/ware/lot.ts';
import { bookFrom } from '../helpers/book.ts';

const BOOK = bookFrom({
  products: 'cup: { name: Cup, fired: [once] }\njug: { name: Jug, fired: [once] }',
  kilns: 'kiln: { name: Kiln, fuel: wood }',
  channels:
    'nook: { name: Nook, kind: consignment, commission: 40% }\ndoor: { name: Door, kind: direct }',
  pieces: `
p1: { date: 2026-01-01, product: cup, made: 20, gone: [{ date: 2026-04-01, count: 1, how: broken, channel: nook }] }
p2: { date: 2026-01-01, product: jug, made: 5 }
`,
  firings:
    'f1: { date: 2026-01-02, kiln: kiln, kind: once, load: [{ lot: p1, in: 20, first: 18, second: 2 }, { lot: p2, in: 5, first: 5 }] }',
  consigned: `
g1: { date: 2026-02-01, channel: nook, sent: [{ product: cup, count: 6, price: 20 }, { product: jug, lot: p2, count: 2, price: 60 }] }
g2: { date: 2026-03-01, channel: nook, sent: [{ product: cup, count: 4, price: 24 }, { product: cup, grade: second, count: 2, price: 12 }] }
g3: { date: 2026-04-01, channel: nook, back: [{ product: cup, count: 1 }], missing: [{ product: jug, count: 1, owed: 36 }] }
`,
  sales: `
s1: { date: 2026-03-10, channel: nook, lines: [{ product: cup, count: 7, price: 22 }] }
s2: { date: 2026-03-11, channel: door, lines: [{ product: cup, count: 3, price: 20 }] }
s3: { date: 2026-03-12, channel: nook, lines: [{ product: cup, count: 2, price: 22, returned: yes }, { product: jug, lot: p2, count: 1, price: 60 }] }
`,
  counted:
    'c1: { date: 2026-05-01, pieces: [{ product: cup, grade: second, place: nook, count: 1 }] }',
});

/** One line a delivery: what was sent when, and what became of it. */
function told(asOf: string): string[] {
  return deliveries(BOOK, asOf).all.map(({ by, line, left, sold, ...gone }) => {
    const taken = sold.map(({ sale, count }) => `${sale.id} ${String(count)}`).join(', ');
    const ways = [gone.back, gone.missing, gone.broken, gone.uncounted].join(' ');
    return `${by} ${line.product}: ${String(left)} left; sold ${taken}; ${ways}`;
  });
}

describe('deliveries to a gallery', () => {
  it('are sold first sent, first sold, and never by another channel', () => {
    expect(told('2026-03-11')).toEqual([
      'g1 cup: 0 left; sold s1 6; 0 0 0 0',
      'g1 jug: 2 left; sold ; 0 0 0 0',
      'g2 cup: 3 left; sold s1 1; 0 0 0 0',
      'g2 cup: 2 left; sold ; 0 0 0 0',
    ]);
  });

  it('come back by a return of what was sold last, break, go missing and are counted', () => {
    expect(told('2026-05-01')).toEqual([
      'g1 cup: 0 left; sold s1 5; 1 0 0 0',
      'g1 jug: 0 left; sold s3 1; 0 1 0 0',
      // What comes back to the gallery is on its shelf again: a cup of each delivery.
      'g2 cup: 3 left; sold ; 0 0 1 0',
      'g2 cup: 1 left; sold ; 0 0 0 1',
    ]);
  });

  it('remember which lines of a statement sold which pieces', () => {
    const [line] = deliveries(BOOK, '2026-05-01').sold.get('s1')?.taken ?? [];
    expect(line?.map(({ delivery, count }) => [delivery.by, count])).toEqual([
      ['g1', 6],
      ['g2', 1],
    ]);
  });

  it('have as many pieces left as the ware has standing at the gallery', () => {
    for (const day of ['2026-02-01', '2026-03-01', '2026-03-12', '2026-04-01', '2026-05-01']) {
      const left = deliveries(BOOK, day).all.reduce((sum, each) => sum + each.left, 0);
      const lots = [...flow(BOOK, day).ware.lots.values()];
      expect(left).toBe(lots.reduce((sum, lot) => sum + piecesAt(lot, 'nook'), 0));
    }
  });
});
