/** Invoices, receipts and credit notes of a sale. */
import type { Sale } from '../../book.ts';
import { NO_MONEY, opposite, type Money } from '../../number/money.ts';
import { billOf, type Bill, type BilledLine } from '../../reckon/sales/bill.ts';
import { paidOn } from '../../reckon/sales/paid.ts';
import { channelOf } from '../../reckon/tax/taxed.ts';
import {
  addressee,
  filledTable,
  letterOf,
  lotNumber,
  saidTexts,
  wareWords,
  type PaperScene,
} from './letter.ts';
import type { Paper, PaperSum, PaperTable } from './paper.ts';
import type { PhraseKey } from './phrases.ts';

/** A sale with its bill, every amount times a sign: what is given back is above zero on a credit note. */
interface BilledSale {
  readonly sale: Sale;
  readonly bill: Bill;
  readonly isBack: boolean;
}

/** The invoice of a sale; one without a number says that it is a draft. */
export function invoicePaper(scene: PaperScene, sale: Sale): Paper {
  const { wording, asOf } = scene;
  const billed = billedOf(scene, sale, false);
  const paid = paidOn(sale);
  const isPaid = paid !== undefined && paid <= asOf;
  const { toPay } = billed.bill;
  const end: readonly PaperSum[] = isPaid
    ? [
        sumLine(scene, `${wording.say('paid-on')} ${wording.day(paid)}`, opposite(toPay)),
        totalSum(scene, wording.say('to-pay'), NO_MONEY),
      ]
    : [totalSum(scene, wording.say('to-pay'), toPay)];
  return {
    ...billPaper(scene, billed, { title: 'invoice', end }),
    texts: saidTexts(isPaid ? undefined : scene.book.studio.papers?.terms),
  };
}

/** The receipt of a sale that is paid. */
export function receiptPaper(scene: PaperScene, sale: Sale): Paper {
  const { wording } = scene;
  const billed = billedOf(scene, sale, false);
  const head = `${wording.say('paid-on')} ${wording.day(paidOn(sale) ?? sale.date)}`;
  const { to, ...paper } = billPaper(scene, billed, {
    title: 'receipt',
    end: [totalSum(scene, head, billed.bill.toPay)],
  });
  return sale.buyer === undefined || to === undefined
    ? paper
    : { ...paper, to: { ...to, open: 0 } };
}

/** The credit note of a sale of returns; it names the invoice that it is on. */
export function creditPaper(scene: PaperScene, sale: Sale): Paper {
  const { wording, book } = scene;
  const billed = billedOf(scene, sale, true);
  const paper = billPaper(scene, billed, {
    title: 'credit-note',
    end: [totalSum(scene, wording.say('given-back'), opposite(billed.bill.toPay))],
  });
  const credited = book.sales.get(sale.credits ?? '');
  if (!credited) return paper;
  const { number } = credited;
  const head = wording.say(number === undefined ? 'for-sale' : 'for-invoice');
  const text = `${number ?? credited.id}, ${wording.day(credited.date)}`;
  return { ...paper, facts: [...paper.facts, { head, text }] };
}

function billedOf({ book }: PaperScene, sale: Sale, isBack: boolean): BilledSale {
  return { sale, bill: billOf(book, sale), isBack };
}

function billPaper(
  scene: PaperScene,
  billed: BilledSale,
  { title, end }: { readonly title: PhraseKey; readonly end: readonly PaperSum[] },
): Paper {
  const { wording } = scene;
  const { sale } = billed;
  const { number, id, date } = sale;
  const buyer = sale.buyer ?? channelBuyer(scene, sale);
  const isNumbered = title !== 'receipt';
  const unnumbered = isNumbered ? wording.say('without-number') : undefined;
  return {
    ...letterOf(scene),
    title: [wording.say(title), number].filter((word) => word !== undefined).join(' '),
    to: addressee(scene, buyer),
    facts: [
      ...(number === undefined && unnumbered !== undefined
        ? [{ head: wording.say('number'), text: unnumbered }]
        : []),
      { head: wording.say('date'), text: wording.day(date) },
      { head: wording.say('reference'), text: id },
    ],
    table: billTable(scene, billed),
    sums: [...billSums(scene, billed), ...end],
    texts: [],
  };
}

/** A shop or a gallery that is a channel is the buyer, where the sale names nobody. */
function channelBuyer({ book }: PaperScene, { channel: id }: Sale): string {
  const channel = book.channels.get(id);
  return channel?.kind === 'wholesale' || channel?.kind === 'consignment' ? channel.name : '';
}

function billTable(scene: PaperScene, { bill, sale, isBack }: BilledSale): PaperTable {
  const { wording } = scene;
  const head = (key: PhraseKey, isFigure: boolean): PaperTable['columns'][number] => ({
    head: wording.say(key),
    isFigure,
  });
  return filledTable({
    caption: wording.say('what'),
    columns: [
      head('count', true),
      head('what', false),
      head('mark', false),
      head('price', true),
      head('amount', true),
    ],
    rows: bill.lines.flatMap((billed) => rowsOf(scene, billed, { sale, isBack })),
  });
}

function rowsOf(
  scene: PaperScene,
  { line, price, amount, discount }: BilledLine,
  { sale, isBack }: Pick<BilledSale, 'sale' | 'isBack'>,
): string[][] {
  const { wording, book } = scene;
  const signed = (money: Money): string => wording.money(isBack ? opposite(money) : money);
  const name = wareWords(scene, line, sale.date);
  const isReturn = line.returned === 'yes' && !isBack;
  const what = isReturn ? `${name} (${wording.say('returned')})` : name;
  const lot = lotNumber(book, line.lot);
  const row = [String(line.count), what, lot, wording.money(price), signed(amount)];
  if (discount === NO_MONEY) return [row];
  const percent = line.discount?.percent;
  const off = saidTexts(wording.say('less'), percent && wording.percent(percent)).join(' ');
  return [row, ['', off, '', '', signed(opposite(discount))]];
}

/** From what the lines come to to the total, and what is taken off that. */
function billSums(scene: PaperScene, { bill, sale, isBack }: BilledSale): PaperSum[] {
  const { wording, book } = scene;
  const signed = (amount: Money): Money => (isBack ? opposite(amount) : amount);
  const { subtotal, discount, shipping, tax, total, commission, paidAhead } = bill;
  const isMore =
    [discount, shipping].some((each) => each !== NO_MONEY) || tax?.isIncluded === false;
  const line = (key: PhraseKey, amount: Money, more = ''): PaperSum[] =>
    amount === NO_MONEY
      ? []
      : [sumLine(scene, [wording.say(key), more].filter(Boolean).join(' '), signed(amount))];
  const percent = sale.discount?.percent;
  const agreed = sale.commission ? undefined : channelOf(book, sale)?.commission;
  return [
    ...(isMore ? line('subtotal', subtotal) : []),
    ...line('discount', opposite(discount), percent && wording.percent(percent)),
    ...line('shipping', shipping),
    ...(tax && !tax.isIncluded ? line('sales-tax', tax.amount, taxWords(scene, tax)) : []),
    totalSum(scene, `${wording.say('total')} ${book.studio.currency}`, signed(total)),
    ...(tax?.isIncluded ? line('tax-within', tax.amount, taxWords(scene, tax)) : []),
    ...line('commission', opposite(commission), agreed && wording.percent(agreed)),
    ...line('paid-ahead', opposite(paidAhead)),
  ];
}

function taxWords({ wording }: PaperScene, { place, rate }: NonNullable<Bill['tax']>): string {
  return saidTexts(place, rate && wording.percent(rate)).join(' ');
}

function sumLine({ wording }: PaperScene, head: string, amount: Money): PaperSum {
  return { head, amount: wording.money(amount) };
}

/** The same, as what the lines above come to. */
function totalSum(scene: PaperScene, head: string, amount: Money): PaperSum {
  return { ...sumLine(scene, head, amount), isTotal: true };
}
