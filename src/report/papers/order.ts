/** The confirmation of an order, with what was paid ahead for it and the day that it is due. */
import type { Order } from '../../book.ts';
import { NO_MONEY, less, opposite, times, total, type Money } from '../../number/money.ts';
import { booked } from '../../reckon/booked.ts';
import { depositsFor } from '../../reckon/sales/orders.ts';
import { addressee, letterOf, saidTexts, wareWords, type PaperScene } from './letter.ts';
import type { Paper, PaperSum } from './paper.ts';

/** The paper; a total is on it only where every line has a price. */
export function orderPaper(scene: PaperScene, order: Order): Paper {
  const { wording, book } = scene;
  const amounts = order.lines.map(({ price, count }) => price && times(booked(book, price), count));
  const head = (key: 'count' | 'what' | 'price' | 'amount'): string => wording.say(key);
  return {
    ...letterOf(scene),
    title: wording.say('order-confirmation'),
    to: addressee(scene, order.buyer),
    facts: [
      { head: wording.say('date'), text: wording.day(order.date) },
      { head: wording.say('reference'), text: order.id },
      ...(order.due === undefined
        ? []
        : [{ head: wording.say('due'), text: wording.day(order.due) }]),
    ],
    table: {
      caption: wording.say('what'),
      columns: [
        { head: head('count'), isFigure: true },
        { head: head('what'), isFigure: false },
        { head: head('price'), isFigure: true },
        { head: head('amount'), isFigure: true },
      ],
      rows: order.lines.map((line, at) => {
        const amount = amounts[at];
        const what = saidTexts(wareWords(scene, line, order.date), line.note).join(', ');
        const price = line.price && wording.money(booked(book, line.price));
        const open = wording.say('price-open');
        return [
          String(line.count),
          what,
          price ?? open,
          amount === undefined ? '' : wording.money(amount),
        ];
      }),
    },
    sums: orderSums(scene, order, amounts),
    texts: saidTexts(book.studio.papers?.terms),
  };
}

function orderSums(
  { wording, book, asOf }: PaperScene,
  { id }: Order,
  amounts: readonly (Money | undefined)[],
): PaperSum[] {
  const priced = amounts.filter((amount) => amount !== undefined);
  const whole = priced.length === amounts.length ? total(priced) : undefined;
  const deposits = depositsFor(book, id, asOf).map(({ date, amount }) => ({
    head: `${wording.say('paid-ahead')} ${wording.day(date)}`,
    money: booked(book, amount),
  }));
  const paid = total(deposits.map(({ money }) => money));
  const totals = (key: 'total' | 'still-open', amount: Money): PaperSum => ({
    head: key === 'total' ? `${wording.say(key)} ${book.studio.currency}` : wording.say(key),
    amount: wording.money(amount),
    isTotal: true,
  });
  return [
    ...(whole === undefined ? [] : [totals('total', whole)]),
    ...deposits.map(({ head, money }) => ({
      head,
      amount: wording.money(whole === undefined ? money : opposite(money)),
    })),
    ...(whole === undefined || paid === NO_MONEY ? [] : [totals('still-open', less(whole, paid))]),
  ];
}
