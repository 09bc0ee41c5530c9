import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_MONEY, less, total, type Money } from '../../src/number/money.ts';
import {
  classesOwed,
  enrolmentParts,
  meetingsOf,
  type EarnedPart,
} from '../../src/reckon/sales/enrolment.ts';
import { flow } from '../../src/reckon/flow.ts';
import { incomeFacts } from '../../src/reckon/sales/income.ts';
import { netOf } from '../../src/reckon/sales/income-fact.ts';
import { saleMoney } from '../../src/reckon/sales/sale-money.ts';
import { holds } from '../helpers/law.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

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

/** What a sale's first line earns on which day. */
function partsOf(sale: string, id = 'lids'): EarnedPart[] {
  const book = bookWith(`s1: ${sale}`);
  const record = book.sales.get('s1') ?? expect.fail('no sale');
  const [line] = saleMoney(book, record).lines;
  return enrolmentParts(meetings(id), record.date, line ?? expect.fail('no line'));
}

/** Day and net of each. */
function earned(sale: string, id?: string): string[] {
  return partsOf(sale, id).map(
    ({ day, gross, discounts, returns }) => `${day} ${told(less(gross, discounts, returns))}`,
  );
}

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

  it('shares the price and the discount each by itself, the first meetings first', () => {
    const sale = `{ date: 2026-01-05, discount: 10.01, ${LINE} }`;
    // 100.00 in three and 10.01 in three.
    const parts = partsOf(sale).map(({ day, gross, discounts }) => [
      day,
      told(gross),
      told(discounts),
    ]);
    expect(parts).toEqual([
      ['2026-03-01', '33.34', '3.34'],
      ['2026-03-15', '33.33', '3.34'],
      ['2026-04-10', '33.33', '3.33'],
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
    holds(
      fc.property(cents, cents, fc.integer({ min: 1, max: 9 }), (price, off, sessions) => {
        const discount = Math.min(price, off);
        const book = bookFrom({
          classes: `lids: { name: Lids, starts: 2026-03-01, sessions: ${String(sessions)} }`,
          channels: 'door: { name: Door, kind: direct }',
          sales: `s1: { date: 2026-03-10, channel: door, discount: ${(discount / 100).toFixed(2)}, lines: [{ class: lids, count: 1, price: ${(price / 100).toFixed(2)} }] }`,
        });
        const facts = incomeFacts(book, flow(book, '2027-12-31'), { ...ALWAYS, basis: 'accrual' });
        expect(total(facts.map(netOf))).toBe(BigInt(price - discount));
        const amounts = facts.map((fact): Money => fact.discounts);
        expect(total(amounts)).toBe(BigInt(discount));
        expect(amounts.every((amount) => amount >= NO_MONEY)).toBe(true);
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
    const book = bookWith(SALES);
    return classesOwed(book, flow(book, day)).map(
      ({ class: id, meetings, next, last, amount }) =>
        `${id} ${String(meetings)} ${next} ${last} ${told(amount)}`,
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
    expect(classesOwed(book, flow(book, '2026-03-01')).map((each) => each.class)).toEqual([
      'handles',
      'lids',
    ]);
  });
});
