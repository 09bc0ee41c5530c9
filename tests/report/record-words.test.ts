import { describe, expect, it } from 'vitest';
import { recordWords } from '../../src/report/record-words.ts';
import { bookFrom } from '../helpers/book.ts';

const BOOK = bookFrom({
  materials: 'kaolin: { name: Kaolin, kind: dry, unit: kg }',
  tariffs: 't1: { from: 2026-01-01, fuel: electricity, price: 0.18, per: kWh }',
  bought:
    'b1: { date: 2026-01-02, supplier: Clay Barn, invoice: "0044", lines: [{ material: kaolin, quantity: 2 x 25 kg, cost: 50 }] }',
  sales: `
s1:
  date: 2026-01-03
  channel: door
  buyer: Ada
  lines:
    - { product: mug, count: 2, price: 30 }
    - { product: vase, count: 1, price: 60 }
    - { product: mug, count: 3, price: 28 }
    - { product: mug, count: 1, price: 30, returned: yes }
    - { for: kiln rental, count: 1, price: 10 }
    - { class: wheel, count: 1, price: 90 }
`,
  consigned: 'c1: { date: 2026-01-04, channel: gallery, back: [{ product: mug, count: 2 }] }',
  counted:
    'n1: { date: 2026-01-05, materials: [{ material: kaolin, quantity: 1 kg }], pieces: [{ product: mug, count: 3 }] }',
});

describe('a record in a few words', () => {
  it.each([
    ['kaolin', 'material', undefined, 'Kaolin'],
    ['t1', 'tariff', '2026-01-01', 'electricity, 0.18 per kWh'],
    ['b1', 'purchase', '2026-01-02', 'Clay Barn, invoice 0044, 50 kg kaolin'],
    ['s1', 'sale', '2026-01-03', 'door, Ada, 5 mug, 1 vase, 1 mug back, 1 kiln rental, and 1 more'],
    ['c1', 'consignment', '2026-01-04', 'gallery, back 2 mug'],
    ['n1', 'stocktake', '2026-01-05', 'kaolin, mug'],
  ])('%s', (...[id, kind, date, what]) => {
    const [words] = recordWords(BOOK, [id]);
    expect(words).toEqual({ id, kind, date, what, file: expect.any(String) as string });
  });

  it('is said once, in the order asked for, and of nothing that is nowhere', () => {
    const ids = recordWords(BOOK, ['s1', 'nowhere', 'b1', 's1']).map(({ id }) => id);
    expect(ids).toEqual(['s1', 'b1']);
  });

  it('names the file that it is in', () => {
    expect(recordWords(BOOK, ['s1'])[0]?.file).toBe('sales.yaml');
  });
});
