/** Money that is paid ahead, against figures in print. */
import { describe, expect, it } from 'vitest';
import { total } from '../../src/number/money.ts';
import { classesOwed } from '../../src/reckon/sales/enrolment.ts';
import { flow } from '../../src/reckon/flow.ts';
import { incomeFacts } from '../../src/reckon/sales/income.ts';
import { type Basis, netOf } from '../../src/reckon/sales/income-fact.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

// OpenStax, Principles of Accounting, Volume 1: Financial Accounting, section 12.1: 120 received in
// October for three treatments in November, February and April; 40 is revenue of the year, 80 is owed.
// On the cash basis all 120 is income when it comes in (IRS Publication 538, cash method).
describe('a class paid ahead', () => {
  const book = bookFrom({
    classes:
      'trim: { name: Trimming, starts: 2025-11-08, meets: [2025-11-08, 2026-02-07, 2026-04-11] }',
    channels: 'door: { name: Door, kind: direct }',
    sales:
      's1: { date: 2025-10-04, channel: door, lines: [{ class: trim, count: 1, price: 120 }] }',
  });

  function income(year: string, basis: Basis): string {
    const period = { from: `${year}-01-01`, to: `${year}-12-31` };
    const facts = incomeFacts(book, flow(book, `${year}-12-31`), { ...period, basis });
    return told(total(facts.map(netOf)));
  }

  it('is income lesson by lesson on the accrual basis, and the rest is owed', () => {
    expect([income('2025', 'accrual'), income('2026', 'accrual')]).toEqual(['40.00', '80.00']);
    expect(classesOwed(book, flow(book, '2025-12-31')).map(({ amount }) => told(amount))).toEqual([
      '80.00',
    ]);
    expect(classesOwed(book, flow(book, '2026-04-11'))).toEqual([]);
  });

  it('is all income when it comes in on the cash basis', () => {
    expect([income('2025', 'cash'), income('2026', 'cash')]).toEqual(['120.00', '0.00']);
  });
});
