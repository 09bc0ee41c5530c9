import { describe, expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { galleryHistory } from '../../src/report/galleries.ts';
import { galleryTable } from '../../src/report/gallery.ts';
import type { Row } from '../../src/report/table.ts';
import { bookFrom } from '../helpers/book.ts';
import { runCommand } from '../helpers/studio-commands.ts';

// Mugs of two glazes and a second were left at Nord, some of them at a new price; one was sold and paid,
// two sold and not paid yet, one is missing. From May on Nord takes half.
const BOOK = bookFrom({
  products: 'mug: { name: Mug, price: 30, second: 15, glazes: [{ recipe: blue, each: 1 g }] }',
  channels: `
nord: { name: Nord, kind: consignment, commission: 40%, changes: [{ from: 2026-05-01, commission: 50% }] }
shop: { name: Shop, kind: direct }
`,
  pieces: 'p1: { date: 2026-01-01, product: mug, made: 40 }',
  consigned: `
k1: { date: 2026-02-01, channel: nord, sent: [{ product: mug, glaze: blue, count: 5, price: 30 }, { product: mug, glaze: rust, count: 2, price: 30 }] }
k2: { date: 2026-03-01, channel: nord, sent: [{ product: mug, glaze: blue, count: 3, price: 30 }, { product: mug, glaze: blue, count: 2, price: 33 }, { product: mug, lot: p1, grade: second, count: 1 }] }
k3: { date: 2026-04-01, channel: nord, back: [{ product: mug, glaze: rust, count: 2 }], missing: [{ product: mug, glaze: blue, count: 1, owed: 18 }] }
`,
  sales: `
s1: { date: 2026-03-10, channel: nord, paid: 2026-03-20, lines: [{ product: mug, glaze: blue, count: 1, price: 30 }] }
s2: { date: 2026-04-10, channel: nord, paid: no, lines: [{ product: mug, glaze: blue, count: 2, price: 30 }] }
`,
});

function told(row: Row | undefined, keys: readonly string[]): string {
  return keys.map((key) => String(row?.[key] ?? '-')).join(' ');
}

describe('one gallery', () => {
  const LOOK = ['glaze', 'grade', 'here', 'price', 'value', 'commission', 'yours', 'oldestDays'];

  it('has what is still there by product, glaze, grade and price, and what it would bring', () => {
    const table = galleryTable(BOOK, flow(BOOK, '2026-04-30'), 'nord');
    // Of the first five blue ones 1 + 2 were sold and 1 is missing: 1 + 3 are left. 30 × 40 % is 12.
    expect(table?.rows.map((row) => told(row, LOOK))).toEqual([
      'blue first 4 3000 12000 4800 7200 88',
      'blue first 2 3300 6600 2640 3960 60',
      'blue second 1 1500 1500 600 900 60',
    ]);
    expect(told(table?.totals, LOOK)).toBe('- - 7 - 20100 8040 12060 88');
    // 60 less 24 for the statement, and 18 for the missing one.
    expect(table?.notes[0]).toBe(
      'Owed to you: 54.00: 18.00 since 2026-04-01 (k3); 36.00 since 2026-04-10 (s2).',
    );
    expect(table?.behind?.()?.[0]).toEqual(['k1', 's1', 's2', 'k3', 'k2']);
  });

  it('goes by the terms of the day', () => {
    const table = galleryTable(BOOK, flow(BOOK, '2026-05-01'), 'nord');
    expect(told(table?.rows[0], ['value', 'commission', 'yours'])).toBe('12000 6000 6000');
  });

  it('has nothing there before anything came', () => {
    const table = galleryTable(BOOK, flow(BOOK, '2026-01-31'), 'nord');
    expect([table?.rows, table?.verdict?.sentence]).toEqual([
      [],
      'Nothing is there; nothing is owed to you.',
    ]);
    expect(galleryTable(BOOK, flow(BOOK, '2026-01-31'), 'shop')).toBeUndefined();
  });

  it('has a history of what came, was sold, returned and paid', () => {
    const table = galleryHistory(BOOK, flow(BOOK, '2026-04-30'), 'nord');
    const counts = ['record', 'sent', 'sold', 'back', 'missing', 'here'];
    expect(table?.rows.map((row) => told(row, counts))).toEqual([
      'k1 5 3 0 1 1',
      'k1 2 0 2 0 0',
      'k2 3 0 0 0 3',
      'k2 2 0 0 0 2',
      'k2 1 0 0 0 1',
    ]);
    // 30 less 40 %.
    expect(table?.notes).toContain('Paid to you: 18.00 for 1 statement, the last on 2026-03-20.');
    const before = galleryHistory(BOOK, flow(BOOK, '2026-03-19'), 'nord');
    expect(before?.notes.join(' ')).not.toContain('Paid to you');
  });

  it('must be named for its history', async () => {
    const { status, complaints } = await runCommand('galleries', { history: true });
    expect(status).toBe(2);
    expect(complaints).toBe('saggar: --history is of one gallery: saggar galleries ID --history\n');
  });
});
