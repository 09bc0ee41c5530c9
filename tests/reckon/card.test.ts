/** What goes by card pays the reader's share, and the rest is cash: worked by hand. */
import { describe, expect, it } from 'vitest';
import { moneyText } from '../../src/number/money.ts';
import { saleMoney } from '../../src/reckon/sales/sale-money.ts';
import { flow } from '../../src/reckon/flow.ts';
import { fairsTable } from '../../src/report/fairs.ts';
import { bookFrom } from '../helpers/book.ts';

function fees(sales: string, more: Readonly<Record<string, string>> = {}): Record<string, string> {
  const book = bookFrom({
    channels: `
green: { name: Green, kind: fair, fee-percent: 1.69% }
stall: { name: Stall, kind: fair, fee-percent: 2.5%, fee-each: 0.10 }`,
    advances: 'a1: { date: 2026-05-01, for: certificate, amount: 40 }',
    sales,
    ...more,
  });
  const digits = book.studio.currency === 'JPY' ? 0 : 2;
  return Object.fromEntries(
    [...book.sales.values()].map((sale) => [sale.id, moneyText(saleMoney(book, sale).fee, digits)]),
  );
}

const line = (price: string): string =>
  `date: 2026-05-16, lines: [{ for: pots, count: 1, price: ${price} }]`;

describe('card', () => {
  it('pays its share of what went through it', () => {
    // 674.80 × 1.69 % = 11.40412; 460 × 1.69 % = 7.774.
    expect(
      fees(`
all: { ${line('674.80')}, channel: green }
part: { ${line('674.80')}, channel: green, card: 460 }
cash: { ${line('674.80')}, channel: green, card: 0 }
stated: { ${line('674.80')}, channel: green, card: 460, fee: 8.01 }
`),
    ).toEqual({ all: '11.40', part: '7.77', cash: '0.00', stated: '8.01' });
  });

  it('pays what is for each payment once, and nothing where all was cash', () => {
    // 30 × 2.5 % = 0.75, and 0.10.
    expect(
      fees(`
part: { ${line('50')}, channel: stall, card: 30 }
cash: { ${line('50')}, channel: stall, card: 0 }
ahead: { ${line('50')}, channel: stall, advances: [{ advance: a1, amount: 20 }], card: 30 }
`),
    ).toEqual({ part: '0.85', cash: '0.00', ahead: '0.85' });
  });

  it('pays nothing for what is given back, and of an exchange for what was paid by it', () => {
    const both = `date: 2026-05-16, channel: stall, lines: [{ for: pot, count: 1, price: 28, returned: yes }, { for: jug, count: 1, price: 40 }]`;
    // Of the 12 to pay 8 were by card: 0.20 and 0.10. The reader gives nothing back by itself.
    expect(
      fees(`
exchange: { ${both}, card: 8 }
refund: { ${both}, card: -28 }
back: { date: 2026-05-16, channel: stall, lines: [{ for: pot, count: 1, price: 28, returned: yes }], card: 28 }
`),
    ).toEqual({ exchange: '0.30', refund: '0.00', back: '0.00' });
  });

  it('is in whole yen', () => {
    // 46,000 × 1.69 % = 777.4.
    expect(
      fees(`y: { ${line('67480')}, channel: green, card: 46000 }`, {
        studio: 'format: 1\nname: Kiln\ncurrency: JPY\n',
      }),
    ).toEqual({ y: '777' });
  });

  it('is told of a fair beside the cash', () => {
    const book = bookFrom({
      channels: 'green: { name: Green, kind: fair, fee-percent: 1.69% }',
      fairs: 'k1: { date: 2026-05-16, name: May, channel: green }',
      sales: `
s1: { ${line('674.80')}, channel: green, card: 460 }
s2: { ${line('20')}, channel: green }
`,
    });
    const { notes } = fairsTable(book, flow(book, '2026-12-31'), { to: '2026-12-31' });
    expect(notes).toContain(
      'Buyers at k1 paid 460.00 by card and 214.80 in cash, tax and shipping included; 1 sale without card not counted.',
    );
  });
});
