/** What is on an invoice adds up as it is printed, and is what a second reckoning finds. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Sale } from '../../src/book.ts';
import { billOf } from '../../src/reckon/sales/bill.ts';
import { chargedFor } from '../../src/reckon/sales/debts.ts';
import { invoicePaper } from '../../src/report/papers/bills.ts';
import type { PaperScene } from '../../src/report/papers/letter.ts';
import { paperWording } from '../../src/report/papers/phrases.ts';
import { holds } from '../helpers/law.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { saleMoney as again } from '../second-reckoning/sale-money.ts';
import { cases } from '../helpers/tier.ts';
import { openFiles } from './support/open.ts';

const plans = studioPlan({ features: ['consigned', 'advances', 'classes', 'terms', 'fairs'] });

function sum(amounts: readonly bigint[]): bigint {
  return amounts.reduce((all, amount) => all + amount, 0n);
}

/** An amount as it is printed, in minor units. */
function read(text: string): bigint {
  return BigInt(text.replace(/[.,]/g, ''));
}

/** The bill against the other reckoning, amount by amount. */
function compare({ book }: PaperScene, sale: Sale): void {
  const bill = billOf(book, sale);
  const other = again(book, sale);
  const signs = other.lines.map(({ side }) => (side === 'sold' ? 1n : -1n));
  const signed = (amounts: readonly bigint[]): bigint[] =>
    amounts.map((amount, at) => amount * (signs[at] ?? 1n));
  expect(bill.lines.map(({ amount }) => amount)).toEqual(
    signed(other.lines.map(({ amount }) => amount)),
  );
  expect(bill.lines.map(({ discount }) => discount)).toEqual(
    signed(other.lines.map(({ lineDiscount }) => lineDiscount)),
  );
  expect(bill.discount).toBe(sum(signed(other.lines.map(({ saleDiscount }) => saleDiscount))));
  expect(bill.shipping).toBe(other.shipping);
  expect(bill.total).toBe(other.charged);
  expect(bill.total).toBe(chargedFor(book, sale));
  const within = sum(signed(other.lines.map(({ tax }) => tax)));
  expect(bill.tax?.amount ?? 0n).toBe(other.tax + within + other.shippingTax);
}

/** Each column of amounts comes to the total below it, and that less what is taken off to the last line. */
function addUp(scene: PaperScene, sale: Sale): void {
  const { table, sums = [] } = invoicePaper(scene, { ...sale, paid: 'no' });
  const { wording } = scene;
  const lines = sum((table?.rows ?? []).map((row) => read(row.at(-1) ?? '')));
  const at = sums.findIndex(({ isTotal }) => isTotal);
  const isCounted = ({ head }: { head: string }): boolean =>
    !head.startsWith(wording.say('subtotal')) && !head.startsWith(wording.say('tax-within'));
  const before = sums.slice(0, at).filter(isCounted);
  const total = read(sums[at]?.amount ?? '');
  expect(lines + sum(before.map(({ amount }) => read(amount)))).toBe(total);
  const after = sums.slice(at + 1, -1).filter(isCounted);
  const last = sums.at(-1)?.amount ?? '';
  expect(total + sum(after.map(({ amount }) => read(amount)))).toBe(read(last));
}

it('of every sale of random studios', async () => {
  const property = fc.asyncProperty(plans, async (plan) => {
    const { files, asOf } = growStudio(plan);
    const { book } = await openFiles(files, asOf);
    const wording = paperWording(book, {});
    const scene: PaperScene = { book, asOf, wording, addressOf: () => [] };
    for (const sale of book.sales.values()) {
      compare(scene, sale);
      addUp(scene, sale);
    }
  });
  await holds(property, cases(10, 300));
});
