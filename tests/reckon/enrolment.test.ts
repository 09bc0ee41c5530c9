import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimal, sum } from '../../src/number/decimal.ts';
import { classesOwed, enrolmentParts, meetingsOf } from '../../src/reckon/enrolment.ts';
import { flow } from '../../src/reckon/flow.ts';
import { incomeFacts, netOf } from '../../src/reckon/income.ts';
import { saleMoney } from '../../src/reckon/sale-money.ts';
import { bookFrom } from '../helpers/book.ts';

const CLASSES = `
handles: { name: Handles, starts: 2026-02-28, sessions: 3 }
lids: { name: Lids, starts: 2026-03-01, meets: [2026-03-15, 2026-03-01, 2026-04-10] }
once: { name: One day, starts: 2026-06-01 }
`;

function bookWith(sales: string) {
  return bookFrom({ classes: CLASSES, channels: 'door: { name: Door, kind: direct }', sales });
}

function meetings(id: string): readonly string[] {
  return meetingsOf(bookWith('').classes.get(id)!);
}

describe('the meetings of a class', () => {
  it('are weekly from its first day, over the ends of months', () => {
    expect(meetings('handles')).toEqual(['2026-02-28', '2026-03-07', '2026-03-14']);
    expect(meetings('once')).toEqual(['2026-06-01']);
  });

  it('are the days that it names, in their order', () => {
    expect(meetings('lids')).toEqual(['2026-03-01', '2026-03-15', '2026-04-10']);
  });

  it('are no more than a thousand, whatever the book says', () => {
    const [slip] = bookFrom({
      classes: 'slip: { name: S, starts: 2026-01-01, sessions: 999999999 }',
    }).classes.values();
    expect(meetingsOf(slip!)).toHaveLength(1000);
  });
});

/** Day and net of each day that a sale's first line earns. */
function earned(sale: string, id = 'lids'): string[] {
  const book = bookWith(`s1: ${sale}`);
  const [record] = book.sales.values();
  if (!record) throw new Error('no sale');
  const [line] = saleMoney(book, record, 2).lines;
  if (!line) throw new Error('no line');
  const parts = enrolmentParts(meetings(id), { date: record.date, line, minorDigits: 2 });
  return parts.map((part) => `${part.day} ${netOf({ ...NOTHING, ...part }).toFixed(2)}`);
}

const NOTHING = {
  ...{ count: 0, estimated: false },
  ...{ fees: decimal(0), cost: decimal(0), minutes: decimal(0), timedMargin: decimal(0) },
};

describe('an enrolment', () => {
  const LINE = 'channel: door, lines: [{ class: lids, count: 1, price: 100 }]';

  it('is earned in equal parts, the odd cents first', () => {
    expect(earned(`{ date: 2026-01-05, ${LINE} }`)).toEqual([
      '2026-03-01 33.34',
      '2026-03-15 33.33',
      '2026-04-10 33.33',
    ]);
  });

  it('counts earlier meetings on its own date, and a meeting of that day too', () => {
    expect(earned(`{ date: 2026-03-15, ${LINE} }`)).toEqual([
      '2026-03-15 66.67',
      '2026-04-10 33.33',
    ]);
    expect(earned(`{ date: 2026-05-01, ${LINE} }`)).toEqual(['2026-05-01 100.00']);
  });

  it('takes its share of the discount with it', () => {
    const discounted = `{ date: 2026-01-05, discount: 10, ${LINE} }`;
    expect(earned(discounted)).toEqual([
      '2026-03-01 30.00',
      '2026-03-15 30.00',
      '2026-04-10 30.00',
    ]);
  });

  it('a refund takes back from the meetings to come, else counts on its date', () => {
    const refund = 'channel: door, lines: [{ class: lids, count: 1, price: 100, returned: yes }]';
    expect(earned(`{ date: 2026-03-02, ${refund} }`)).toEqual([
      '2026-03-15 -50.00',
      '2026-04-10 -50.00',
    ]);
    expect(earned(`{ date: 2026-05-01, ${refund} }`)).toEqual(['2026-05-01 -100.00']);
  });

  it('adds up to the cent, whatever the amount, the discount and the days', () => {
    const cents = fc.integer({ min: 0, max: 100_000 });
    fc.assert(
      fc.property(cents, cents, fc.integer({ min: 1, max: 9 }), (price, off, sessions) => {
        const discount = Math.min(price, off);
        const book = bookFrom({
          classes: `lids: { name: Lids, starts: 2026-03-01, sessions: ${String(sessions)} }`,
          channels: 'door: { name: Door, kind: direct }',
          sales: `s1: { date: 2026-03-10, channel: door, discount: ${(discount / 100).toFixed(2)}, lines: [{ class: lids, count: 1, price: ${(price / 100).toFixed(2)} }] }`,
        });
        const facts = incomeFacts(book, flow(book, '2027-12-31'), ALWAYS, 'accrual');
        expect(sum(facts.map(netOf)).eq(decimal(price - discount).times(decimal('0.01')))).toBe(
          true,
        );
        for (const fact of facts) {
          expect(fact.discounts.lt(decimal(0))).toBe(false);
          expect(netOf(fact).decimalPlaces()).toBeLessThanOrEqual(2);
        }
      }),
    );
  });
});

const ALWAYS = { from: '0000-01-01', to: '9999-12-31' };

describe('lessons that are owed', () => {
  const SALES = `
s1: { date: 2026-02-01, channel: door, lines: [{ class: lids, count: 2, price: 90 }] }
s2: { date: 2026-02-01, channel: door, paid: no, lines: [{ class: lids, count: 1, price: 90 }] }
s3: { date: 2026-02-01, channel: door, paid: 2026-03-20, lines: [{ class: handles, count: 1, price: 60 }] }
s4: { date: 2026-03-02, channel: door, lines: [{ class: lids, count: 1, price: 40, returned: yes }] }
`;

  function owed(day: string): string[] {
    return classesOwed(bookWith(SALES), day).map(
      ({ class: id, meetings, next, last, amount }) =>
        `${id} ${String(meetings)} ${next} ${last} ${amount.toFixed(2)}`,
    );
  }

  it('are those that are paid and not given, less what was refunded', () => {
    expect(owed('2026-01-31')).toEqual([]);
    expect(owed('2026-02-01')).toEqual(['lids 3 2026-03-01 2026-04-10 180.00']);
    expect(owed('2026-03-01')).toEqual(['lids 2 2026-03-15 2026-04-10 120.00']);
    expect(owed('2026-03-02')).toEqual(['lids 2 2026-03-15 2026-04-10 80.00']);
    expect(owed('2026-04-10')).toEqual([]);
  });

  it('and not those that nobody has paid', () => {
    expect(owed('2026-03-20').filter((each) => each.startsWith('handles'))).toEqual([]);
    const book = bookWith(SALES.replace('paid: 2026-03-20', 'paid: 2026-02-28'));
    expect(classesOwed(book, '2026-03-01').map((each) => each.class)).toEqual(['handles', 'lids']);
  });
});
