/** Advances and class fees: the two bases differ by what is not paid, not taught and not used, and by no cent more. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book, Sale } from '../../src/book.ts';
import { NO_MONEY, add, less, opposite, total, type Money } from '../../src/number/money.ts';
import { advancesOpen } from '../../src/reckon/sales/advance.ts';
import { booked } from '../../src/reckon/booked.ts';
import { deliveries } from '../../src/reckon/ware/consignment.ts';
import { classesOwed, enrolmentParts, meetingsOf } from '../../src/reckon/sales/enrolment.ts';
import { fairFigures, salesAtNoFair } from '../../src/reckon/sales/fair.ts';
import { flow } from '../../src/reckon/flow.ts';
import { piecesAt } from '../../src/reckon/ware/lot.ts';
import { incomeFacts } from '../../src/reckon/sales/income.ts';
import { type Basis, incomeTotal, netOf } from '../../src/reckon/sales/income-fact.ts';
import { missingOwed } from '../../src/reckon/sales/debts.ts';
import { saleMoney, type LineMoney } from '../../src/reckon/sales/sale-money.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';

const ALWAYS = { from: '0000-01-01', to: '9999-12-31' };

interface Case {
  readonly book: Book;
  readonly asOf: string;
}

const plans = studioPlan({
  features: ['consigned', 'advances', 'classes', 'meets', 'terms', 'fairs'],
});

async function eachCase(runs: number, look: (studio: Case) => void): Promise<void> {
  const property = fc.asyncProperty(plans, async (plan) => {
    const { files, asOf } = growStudio(plan);
    const { book } = await openFiles(files, asOf);
    look({ book, asOf });
  });
  await holds(property, runs);
}

function isUnpaid({ paid }: Pick<Sale, 'paid'>, asOf: string): boolean {
  return paid !== undefined && (paid === 'no' || paid > asOf);
}

/** What a sale earns in all, and what of it was paid beforehand. */
function worthOf(book: Book, sale: Sale): { net: Money; fees: Money; ahead: Money } {
  const { lines, shipping, fee, commission, advances } = saleMoney(book, sale);
  const nets = lines.map(({ net, returned }) => (returned ? opposite(net) : net));
  return { net: total([...nets, shipping]), fees: add(fee, commission), ahead: advances };
}

function earned({ book, asOf }: Case, basis: Basis): { net: Money; fees: Money } {
  const all = incomeTotal(incomeFacts(book, flow(book, asOf), { ...ALWAYS, basis }));
  return { net: netOf(all), fees: all.fees };
}

/** The book as if all its sales had been paid on their dates. */
function allPaid(book: Book): Book {
  const sales = [...book.sales].map(([id, sale]) => [id, { ...sale, paid: sale.date }] as const);
  return { ...book, sales: new Map(sales) };
}

describe('the cash basis and the accrual basis', () => {
  it('differ by what is not paid, not taught and not used yet, and by nothing else', async () => {
    await eachCase(4, ({ book, asOf }) => {
      const [cash, accrual] = [
        earned({ book, asOf }, 'cash'),
        earned({ book, asOf }, 'accrual'),
      ] as const;
      const unpaid = [...book.sales.values()].filter((sale) => isUnpaid(sale, asOf));
      const worth = unpaid.map((sale) => worthOf(book, sale));
      const missing = missingOwed(book).filter((owed) => isUnpaid(owed, asOf));
      const owing = total([
        ...worth.map(({ net, ahead }) => less(net, ahead)),
        ...missing.map(({ amount }) => amount),
      ]);
      const untaught = total(
        classesOwed(allPaid(book), flow(allPaid(book), asOf)).map(({ amount }) => amount),
      );
      const open = total(advancesOpen(book, asOf).map(({ left }) => left));
      expect(less(accrual.net, cash.net)).toBe(less(owing, untaught, open));
      const fees = total(worth.map((each) => each.fees));
      expect(less(accrual.fees, cash.fees)).toBe(fees);
    });
  });
});

describe('an advance', () => {
  it('is open until it is used or refunded, and never beyond', async () => {
    await eachCase(2, ({ book, asOf }) => {
      const left = new Map(advancesOpen(book, asOf).map((each) => [each.advance.id, each.left]));
      const uses = [...book.sales.values()].flatMap(({ advances = [] }) => advances);
      for (const { id, amount, refunded = [] } of book.advances.values()) {
        const used = uses.filter(({ advance }) => advance === id).map((use) => use.amount);
        const all = [...used, ...refunded.map((each) => each.amount)];
        const gone = total(all.map((each) => booked(book, each)));
        expect(less(booked(book, amount), gone)).toBe(left.get(id) ?? NO_MONEY);
        expect(gone > booked(book, amount)).toBe(false);
      }
    });
  });
});

/** The lines of all sales that are fees of classes. */
function enrolmentsOf(book: Book): { readonly sale: Sale; readonly line: LineMoney }[] {
  const lines = [...book.sales.values()].flatMap((sale) =>
    saleMoney(book, sale).lines.map((line) => ({ sale, line })),
  );
  return lines.filter(({ line }) => line.line.class !== undefined);
}

describe('an enrolment', () => {
  it('is earned to the last cent, part by part', async () => {
    await eachCase(2, ({ book }) => {
      for (const { sale, line } of enrolmentsOf(book)) {
        const taught = book.classes.get(line.line.class ?? '');
        const parts = enrolmentParts(taught ? meetingsOf(taught) : [], sale.date, line);
        const [whole, off] = line.returned ? [line.net, NO_MONEY] : [line.gross, line.discounts];
        expect(total(parts.flatMap(({ gross, returns }) => [gross, returns]))).toBe(whole);
        expect(total(parts.map(({ discounts }) => discounts))).toBe(off);
        const wholes = parts.map(({ gross, returns }) => add(gross, returns));
        const later = wholes.filter((_, at) => parts[at]?.day !== sale.date);
        for (const part of later) expect(part >= later.at(-1)!).toBe(true);
        expect(parts.every(({ day }) => day >= sale.date)).toBe(true);
      }
    });
  });
});

describe('fairs', () => {
  it('have each sale of their channel once, or not at all', async () => {
    await eachCase(2, ({ book, asOf }) => {
      const fairs = fairFigures(book, flow(book, asOf));
      const found = [...fairs.flatMap(({ sales }) => sales), ...salesAtNoFair(book, { to: asOf })];
      const sold = [...book.sales.values()].filter(
        ({ channel }) => book.channels.get(channel)?.kind === 'fair',
      );
      expect(found.map(({ id }) => id).sort()).toEqual(sold.map(({ id }) => id).sort());
    });
  });
});

describe('deliveries to galleries', () => {
  it('have left what the ware has standing there', async () => {
    await eachCase(2, ({ book, asOf }) => {
      const { all } = deliveries(book, asOf);
      const lots = [...flow(book, asOf).ware.lots.values()];
      for (const { id, kind } of book.channels.values()) {
        if (kind !== 'consignment') continue;
        const its = all.filter(({ channel }) => channel === id);
        const left = its.reduce((total, each) => total + each.left, 0);
        expect(left).toBe(lots.reduce((total, lot) => total + piecesAt(lot, id), 0));
        for (const each of its) {
          const sold = each.sold.reduce((total, { count }) => total + count, 0);
          const { back, missing, broken, uncounted } = each;
          expect(each.left + sold + back + missing + broken + uncounted).toBe(each.line.count);
        }
      }
    });
  });
});
