/** What a gallery owes for missing pieces: 38.40 missed in March, 20.00 in April, and paid for in May. */
import { describe, expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { galleryStandings } from '../../src/reckon/ware/gallery.ts';
import { incomeFacts } from '../../src/reckon/sales/income.ts';
import type { Basis } from '../../src/reckon/sales/income-fact.ts';
import { owedByOthers } from '../../src/reckon/sales/debts.ts';
import { recordedOn } from '../../src/reckon/day.ts';
import { galleriesTable } from '../../src/report/galleries.ts';
import { incomeTable } from '../../src/report/income.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';
import { summaryOf, type Wanted } from '../helpers/quarter.ts';

const BOOK = bookFrom({
  products: 'mug: { name: Mug, fired: [once], price: 32 }',
  kilns: 'kiln: { name: Kiln, fuel: wood }',
  channels: `
nook: { name: Nook, kind: consignment, commission: 40% }
loft: { name: Loft, kind: consignment }
`,
  pieces: 'p1: { date: 2026-01-01, product: mug, made: 20 }',
  firings:
    'f1: { date: 2026-01-02, kiln: kiln, kind: once, load: [{ lot: p1, in: 20, first: 20 }] }',
  consigned: `
g1: { date: 2026-02-01, channel: nook, sent: [{ product: mug, count: 1, price: 32 }] }
g2: { date: 2026-02-10, channel: nook, sent: [{ product: mug, count: 5, price: 32 }] }
g3: { date: 2026-03-05, channel: nook, missing: [{ product: mug, count: 2, owed: 38.40, paid: 2026-05-04 }] }
g4:
  date: 2026-04-09
  channel: nook
  missing: [{ product: mug, count: 1, owed: 12, paid: 2026-05-20 }, { product: mug, count: 1, owed: 8 }]
g5: { date: 2026-04-10, channel: nook, missing: [{ product: mug, count: 1 }] }
`,
});

const SPRING: Wanted = { basis: 'cash', period: '2026-Q2' };
const YEAR = { from: '2026-01-01', to: '2026-12-31' };

function earned(basis: Basis, asOf = '2026-12-31'): string[] {
  return incomeFacts(BOOK, flow(BOOK, asOf), { ...YEAR, basis })
    .filter(({ kind }) => kind === 'missing')
    .map(({ day, by, channel, gross }) => `${day} ${by} ${channel ?? ''} ${told(gross)}`);
}

describe('what is owed for missing pieces, as income', () => {
  it('counts on the date of the record on the accrual basis, paid or not', () => {
    expect(earned('accrual')).toEqual([
      '2026-03-05 g3 nook 38.40',
      '2026-04-09 g4 nook 12.00',
      '2026-04-09 g4 nook 8.00',
    ]);
    expect(earned('accrual', '2026-03-04')).toEqual([]);
  });

  it('counts on the day it was paid on the cash basis, and not before', () => {
    expect(earned('cash')).toEqual(['2026-05-04 g3 nook 38.40', '2026-05-20 g4 nook 12.00']);
    expect(earned('cash', '2026-05-19')).toEqual(['2026-05-04 g3 nook 38.40']);
    expect(earned('cash', '2026-05-03')).toEqual([]);
  });

  it('is an item of its own that leads to the consignments, without a count, a fee or a cost', () => {
    // 38.40 + 12.00 were paid in the year.
    const { rows, behind } = incomeTable(BOOK, flow(BOOK, '2026-12-31'), {
      by: 'product',
      period: YEAR,
    });
    const own = { item: 'for missing pieces', count: 0, gross: 50_40n, fees: 0n, cost: 0n };
    expect(rows).toEqual([expect.objectContaining({ ...own, net: 50_40n, margin: 50_40n })]);
    expect(behind?.()).toEqual([['g3', 'g4']]);
  });

  it('is under the gallery, by channel', () => {
    const { rows } = incomeTable(BOOK, flow(BOOK, '2026-12-31'), { by: 'channel', period: YEAR });
    expect(rows).toEqual([expect.objectContaining({ item: 'nook', net: 50_40n })]);
  });
});

describe('what is owed for missing pieces, on the tax page', () => {
  const rowOf = (basis: Basis, period: string, item: string): string =>
    rowIn({ basis, period }, item);
  const rowIn = (asked: Wanted, item: string): string => {
    const row = summaryOf(BOOK, asked).rows.find((each) => each['item'] === item);
    return row
      ? `${told(row['amount'] as never)} ${String(row['sheetLine'] ?? '')}`.trim()
      : 'none';
  };

  it('has a row, which goes with other income on its sheets', () => {
    // March is in the first quarter, May and April in the second.
    expect(rowOf('accrual', '2026-Q1', 'missing-pieces')).toBe('38.40 6');
    expect(rowOf('accrual', '2026-Q2', 'missing-pieces')).toBe('20.00 6');
    expect(rowOf('cash', '2026-Q1', 'missing-pieces')).toBe('none');
    expect(rowOf('cash', '2026-Q2', 'missing-pieces')).toBe('50.40 6');
    expect(rowOf('cash', '2026-Q2', 'line.other-income')).toBe('50.40 6');
    expect(rowIn({ ...SPRING, sheet: 'uk-sa103s' }, 'missing-pieces')).toBe('50.40 10');
    expect(rowIn({ ...SPRING, sheet: 'plain' }, 'missing-pieces')).toBe('50.40 1');
  });

  it('is what makes the two bases differ', () => {
    // Owed in the second quarter 20.00, less 50.40 that was paid in it.
    expect(rowOf('cash', '2026-Q1', 'basis.missing-pieces')).toBe('38.40');
    expect(rowOf('cash', '2026-Q2', 'basis.missing-pieces')).toBe('-30.40');
    expect(rowOf('cash', '2026-Q2', 'basis.accrual')).toBe('20.00');
    expect(rowOf('accrual', '2026-Q2', 'basis.cash')).toBe('50.40');
  });

  it('is to be looked at while it is owed', () => {
    expect(rowOf('cash', '2026-Q1', 'missing.unpaid-missing')).toBe('38.40');
    expect(rowOf('cash', '2026-Q2', 'missing.unpaid-missing')).toBe('8.00');
    expect(rowOf('cash', '2026-Q1', 'missing.unpaid-consignment')).toBe('none');
  });
});

describe('what is owed for missing pieces, as a debt', () => {
  const debts = (day: string): string[] =>
    owedByOthers(BOOK, flow(BOOK, day), day).map(
      ({ by, who, amount, since }) => `${by} ${who} ${told(amount)} ${since}`,
    );

  it('is owed from the record on, until it is paid', () => {
    expect(debts('2026-03-04')).toEqual([]);
    expect(debts('2026-03-05')).toEqual(['g3 Nook 38.40 2026-03-05']);
    expect(debts('2026-05-03')).toEqual(['g3 Nook 38.40 2026-03-05', 'g4 Nook 20.00 2026-04-09']);
    expect(debts('2026-05-04')).toEqual(['g4 Nook 20.00 2026-04-09']);
    expect(debts('2026-05-20')).toEqual(['g4 Nook 8.00 2026-04-09']);
  });

  it('comes in on the day it is paid', () => {
    const came = (day: string): (string | undefined)[] =>
      recordedOn(BOOK, day).map(({ kind, amount }) => `${kind} ${told(amount)}`);
    expect(came('2026-05-04')).toEqual(['paid-missing 38.40']);
    expect(came('2026-05-20')).toEqual(['paid-missing 12.00']);
  });
});

describe('what a gallery owes for missing pieces', () => {
  const standing = (day: string): string[] => {
    const [nook] = galleryStandings(BOOK, flow(BOOK, day));
    const sums = [nook?.unpaid, nook?.owedForMissing, nook?.paidForMissing];
    const parts = (nook?.deliveries ?? []).map(
      (each) => `${told(each.owedForMissing)} + ${told(each.paidForMissing)}`,
    );
    return [...sums.map((sum) => told(sum) ?? ''), ...parts];
  };

  it('is what is not paid, shared over the deliveries that the pieces are of', () => {
    // One of the two of March is of the delivery of one, for half of 38.40; all else is of the other.
    expect(standing('2026-03-31')).toEqual([
      '38.40',
      '38.40',
      '0.00',
      '19.20 + 0.00',
      '19.20 + 0.00',
    ]);
    // In April 12 + 8 come to it.
    expect(standing('2026-05-03')).toEqual([
      '58.40',
      '58.40',
      '0.00',
      '19.20 + 0.00',
      '39.20 + 0.00',
    ]);
    expect(standing('2026-05-04')).toEqual([
      '20.00',
      '20.00',
      '38.40',
      '0.00 + 19.20',
      '20.00 + 19.20',
    ]);
    expect(standing('2026-05-20')).toEqual([
      '8.00',
      '8.00',
      '50.40',
      '0.00 + 19.20',
      '8.00 + 31.20',
    ]);
  });

  it('is said with what it came to, and leads to the records', () => {
    const { notes, behind } = galleriesTable(BOOK, flow(BOOK, '2026-05-04'));
    expect(notes).toContain('Unpaid has in it what is owed for missing pieces.');
    expect(notes).toContain(
      'For missing pieces: 58.40 in all, of which 38.40 is paid and owed no more.',
    );
    expect(behind?.()?.[0]).toEqual(['nook', 'g1', 'g3', 'g2', 'g4', 'g5']);
  });
});
