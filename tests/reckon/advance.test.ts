import { describe, expect, it } from 'vitest';
import { advancesOpen } from '../../src/reckon/sales/advance.ts';
import { dueFor, owedByOthers } from '../../src/reckon/sales/debts.ts';
import { flow } from '../../src/reckon/flow.ts';
import { incomeFacts } from '../../src/reckon/sales/income.ts';
import { type Basis, netOf } from '../../src/reckon/sales/income-fact.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

const BOOK = bookFrom({
  channels: 'door: { name: Door, kind: direct, fee-percent: 2%, fee-each: 0.10 }',
  advances: `
a1: { date: 2026-01-10, for: deposit, amount: 100, channel: door, buyer: Quill, refunded: [{ date: 2026-03-01, amount: 15 }] }
a2: { date: 2026-01-12, for: certificate, amount: 40, fee: 0.50 }
a3: { date: 2026-05-01, for: certificate, amount: 25 }
`,
  sales: `
s1: { date: 2026-02-01, channel: door, buyer: Quill, paid: 2026-02-20, advances: [{ advance: a1, amount: 60 }], lines: [{ for: tea set, count: 1, price: 200 }] }
s2: { date: 2026-02-05, channel: door, advances: [{ advance: a2, amount: 30 }], lines: [{ for: mug, count: 1, price: 30 }] }
s3: { date: 2026-02-06, channel: door, paid: no, advances: [{ advance: a1, amount: 25 }], lines: [{ for: jug, count: 1, price: 50 }] }
s4: { date: 2026-06-01, channel: door, paid: 2026-02-01, advances: [{ advance: a3, amount: 25 }], lines: [{ for: jug, count: 1, price: 25 }] }
`,
});

const ALWAYS = { from: '0000-01-01', to: '9999-12-31' };

function facts(asOf: string, basis: Basis): string[] {
  return incomeFacts(BOOK, flow(BOOK, asOf), { ...ALWAYS, basis })
    .map((fact) => {
      const money = `${told(netOf(fact))} ${told(fact.fees)}`;
      return `${fact.day} ${fact.kind} ${fact.item} ${fact.by} ${money}`;
    })
    .sort();
}

describe('advances on the cash basis', () => {
  it('come in on their date, go out by refunds, and leave again with the sale that used them', () => {
    expect(facts('2026-04-30', 'cash')).toEqual([
      '2026-01-10 advance deposit a1 100.00 2.10',
      '2026-01-12 advance certificate a2 40.00 0.50',
      '2026-02-05 advance certificate s2 -30.00 0.00',
      '2026-02-05 other mug s2 30.00 0.00',
      '2026-02-20 advance deposit s1 -60.00 0.00',
      '2026-02-20 other tea set s1 200.00 2.90',
      '2026-03-01 advance deposit a1 -15.00 0.00',
    ]);
  });

  it('are under the channel and the buyer that they came from', () => {
    const all = incomeFacts(BOOK, flow(BOOK, '2026-04-30'), { ...ALWAYS, basis: 'cash' });
    const deposits = all.filter(({ item }) => item === 'deposit');
    expect(deposits.map(({ channel, buyer }) => [channel, buyer])).toEqual([
      ['door', 'Quill'],
      ['door', 'Quill'],
      ['door', 'Quill'],
    ]);
  });
});

describe('advances on the accrual basis', () => {
  it('are no income; their fees are spent when they come in', () => {
    expect(facts('2026-04-30', 'accrual')).toEqual([
      '2026-01-10 advance deposit a1 0.00 2.10',
      '2026-01-12 advance certificate a2 0.00 0.50',
      '2026-02-01 other tea set s1 200.00 2.90',
      '2026-02-05 other mug s2 30.00 0.00',
      '2026-02-06 other jug s3 50.00 0.60',
    ]);
  });
});

describe('an open advance', () => {
  function open(asOf: string): string[] {
    return advancesOpen(BOOK, asOf).map(
      ({ advance, used, refunded, left }) =>
        `${advance.id} ${told(used)} ${told(refunded)} ${told(left)}`,
    );
  }

  it('is what no sale has used by the day, and nobody got back', () => {
    expect(open('2026-01-09')).toEqual([]);
    expect(open('2026-01-31')).toEqual(['a1 0.00 0.00 100.00', 'a2 0.00 0.00 40.00']);
    expect(open('2026-02-06')).toEqual(['a1 85.00 0.00 15.00', 'a2 30.00 0.00 10.00']);
    expect(open('2026-03-01')).toEqual(['a2 30.00 0.00 10.00']);
    expect(open('2026-06-01')).toEqual(['a2 30.00 0.00 10.00']);
  });

  it('lowers what the buyer owes, and what the card reader takes of it', () => {
    const owed = owedByOthers(BOOK, flow(BOOK, '2026-02-06'), '2026-02-06').map(
      ({ by, amount }) => `${by} ${told(amount)}`,
    );
    expect(owed).toEqual(['s1 137.10', 's3 24.40']);
    const covered = BOOK.sales.get('s2');
    expect(covered && told(dueFor(BOOK, covered))).toBe('0.00');
  });
});
