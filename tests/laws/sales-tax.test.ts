/** The tax that is written with a sale is what the rules give, and what is owed to a place adds up. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import {
  NO_MONEY,
  add,
  decimalOf,
  less,
  opposite,
  total,
  type Money,
} from '../../src/number/money.ts';
import { flow } from '../../src/reckon/flow.ts';
import { isPaidOver } from '../../src/reckon/sales/paid.ts';
import { saleMoney } from '../../src/reckon/sales/sale-money.ts';
import { taxByRate } from '../../src/reckon/tax/sale-tax.ts';
import { taxByPlace as owedByPlace } from '../../src/reckon/tax/sales-tax.ts';
import { taxView } from '../../src/reckon/tax/tax-view.ts';
import { booked } from '../../src/reckon/booked.ts';
import { saleMoney as again } from '../second-reckoning/sale-money.ts';
import { taxByPlace } from '../second-reckoning/sale-tax.ts';
import { bookFrom } from '../helpers/book.ts';
import { holds } from '../helpers/law.ts';

const DIGITS = { USD: 2, JPY: 0, KWD: 3 } as const;
type Currency = keyof typeof DIGITS;

const yesNo = fc.constantFrom(undefined, undefined, 'yes', 'no');
const day = fc.constantFrom('2025-01-05', '2025-03-31', '2025-04-01', '2025-08-09', '2025-12-31');

function fields(all: Readonly<Record<string, unknown>>): string {
  const given = Object.entries(all).filter(([, value]) => value !== undefined);
  return `{ ${given.map(([name, value]) => `${name}: ${String(value)}`).join(', ')} }`;
}

function money(currency: Currency): fc.Arbitrary<string> {
  const digits = DIGITS[currency];
  return fc.nat({ max: 99_999 }).map((units) => (units / 10 ** digits).toFixed(digits));
}

function line(currency: Currency): fc.Arbitrary<string> {
  return fc
    .record({
      what: fc.constantFrom(
        'product: mug',
        'product: seeds',
        'class: kids',
        'for: kiln rental',
        'for: repair',
      ),
      count: fc.integer({ min: 1, max: 5 }),
      price: money(currency),
      taxed: yesNo,
      returned: fc.constantFrom(undefined, undefined, 'yes'),
      discount: fc.constantFrom(undefined, '12.5%'),
    })
    .map(({ what, ...rest }) =>
      fields({ [what.split(': ')[0] ?? '']: what.split(': ')[1], ...rest }),
    );
}

function sale(currency: Currency): fc.Arbitrary<string> {
  return fc
    .record({
      date: day,
      channel: fc.constantFrom('door', 'door', 'fair', 'shop'),
      'tax-place': fc.constantFrom(undefined, 'Town'),
      paid: fc.constantFrom(undefined, '2026-01-02', 'no'),
      discount: fc.constantFrom(undefined, '10%'),
      shipping: fc.option(money(currency), { nil: undefined }),
      lines: fc
        .array(line(currency), { minLength: 1, maxLength: 4 })
        .map((all) => `[${all.join(', ')}]`),
    })
    .map(fields);
}

const rate = fc.record({
  place: fc.constantFrom('County', 'Town'),
  percent: fc.constantFrom('6.5%', '7%', '8.875%', '0%'),
  from: day,
  taxes: fc.constantFrom(undefined, '[ware, shipping]', '[classes, other]', '[firing, ware]'),
  by: fc.constantFrom(undefined, 'sale', 'line'),
});

const books = fc.constantFrom(...(Object.keys(DIGITS) as Currency[])).chain((currency) =>
  fc
    .record({
      rates: fc.uniqueArray(rate, { maxLength: 6, selector: ({ place, from }) => place + from }),
      sales: fc.array(sale(currency), { minLength: 1, maxLength: 6 }),
      paid: fc.array(fc.tuple(day, money(currency), fc.constantFrom('County', 'Town')), {
        maxLength: 3,
      }),
    })
    .map(({ rates, sales, paid }) =>
      bookFrom({
        studio: `{ format: 1, name: Test, currency: ${currency}, taxes: [${rates.map(fields).join(', ')}] }`,
        channels:
          'door: { name: Door, kind: direct, tax-place: County }\nfair: { name: Fair, kind: fair, tax-place: County, tax-included: 8% }\nshop: { name: Shop, kind: wholesale, tax-place: County, taxed: no }',
        products: 'mug: { name: Mug }\nseeds: { name: Seeds, taxed: no }',
        classes: 'kids: { name: Kids, starts: 2025-01-01 }',
        sales: sales.map((each, at) => `s${String(at)}: ${each}`).join('\n'),
        spent: paid
          .map(
            ([date, amount, place], at) =>
              `e${String(at)}: { date: ${date}, to: State, for: sales-tax, tax-place: ${place}, amount: ${amount} }`,
          )
          .join('\n'),
      }),
    ),
);

/** The book with the tax of each sale in its record, as `add` would have written it. */
function written(book: Book): Book {
  const digits = DIGITS[book.studio.currency as Currency];
  const sales = [...book.sales.values()].map((each) => {
    const { tax = NO_MONEY } = taxByRate(book, each) ?? {};
    return tax === NO_MONEY ? each : { ...each, tax: decimalOf(tax, digits) };
  });
  return { ...book, sales: new Map(sales.map((each) => [each.id, each])) };
}

it('the tax of a sale is what the second reckoning makes of it', () => {
  const property = fc.property(books, (book) => {
    for (const each of book.sales.values()) {
      const lines = again(book, each).lines;
      const after = lines.map(({ net, tax }) => net + tax);
      const net = taxByPlace(book, each, after);
      const isBack = each.lines.every(({ returned }) => returned === 'yes');
      expect(taxByRate(book, each)?.tax).toBe(net === undefined || !isBack ? net : -net);
      const first = saleMoney(book, each);
      expect(first.lines.map((one) => [one.net, one.taxIncluded, one.gross])).toEqual(
        lines.map((one) => [one.net, one.tax, one.gross]),
      );
    }
  });
  holds(property, 300);
});

it('what is owed to a place is all that came in less all that went out, quarter by quarter', () => {
  const property = fc.property(books, fc.constantFrom('cash', 'accrual'), (plain, basis) => {
    const book = written(plain);
    const view = taxView(book, flow(book, '2026-03-31'), basis);
    const quarters = [
      ['2025-01-01', '2025-03-31'],
      ['2025-04-01', '2025-09-30'],
      ['2025-10-01', '2026-03-31'],
    ].map(([from = '', to = '']) => owedByPlace(view, { from, to }));
    for (const at of quarters.flat()) {
      expect(at.closing).toBe(less(add(at.opening, at.collected), at.givenBack, at.paidOver));
      expect(at.sales).toBe(add(at.taxed, at.untaxed));
    }
    for (const place of ['County', 'Town']) {
      const [first, second, third] = quarters.map((all) => all.find((at) => at.place === place));
      expect([second?.opening ?? NO_MONEY, third?.opening ?? NO_MONEY]).toEqual([
        first?.closing ?? NO_MONEY,
        second?.closing ?? NO_MONEY,
      ]);
    }
    const sales = [...book.sales.values()].filter(
      ({ paid }) => basis === 'accrual' || paid !== 'no',
    );
    const paid = [...book.spent.values()].filter((each) => isPaidOver(book, each));
    const all = total([
      ...sales.map((each): Money => saleMoney(book, each).tax),
      ...paid.map(({ amount }) => opposite(booked(book, amount))),
    ]);
    expect(total((quarters.at(-1) ?? []).map(({ closing }) => closing))).toBe(all);
  });
  holds(property, 200);
});
