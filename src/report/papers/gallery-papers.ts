/** Papers for a gallery or a shop: the list of what was sent, to be signed, and the statement of account. */
import type { Channel, Consigned } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { ONE, ZERO } from '../../number/decimal.ts';
import { fractionOf, less, times, total, type Money } from '../../number/money.ts';
import { booked } from '../../reckon/booked.ts';
import { billOf } from '../../reckon/sales/bill.ts';
import type { Debt } from '../../reckon/sales/debts.ts';
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
import { warePrice } from './ware-price.ts';

/** One line of the list, in money; undefined without a price. */
interface SentMoney {
  readonly price: Money | undefined;
  readonly whole: Money | undefined;
  /** What the studio gets when all of it is sold. */
  readonly own: Money | undefined;
}

/** The list of a delivery; shares are by the commission of that day, rounded line by line. */
export function sentPaper(scene: PaperScene, consigned: Consigned): Paper {
  const { wording, book } = scene;
  const { id, date, channel: place, sent = [] } = consigned;
  const channel = inForce(book.channels.get(place), date);
  const share = channel?.commission ?? ZERO;
  const lines = sent.map((line) => ({ line, ...sentMoney(scene, consigned, line) }));
  const name = channel?.name ?? place;
  return {
    ...letterOf(scene),
    title: wording.say('delivery-list'),
    to: addressee(scene, name),
    facts: [
      { head: wording.say('date'), text: wording.day(date) },
      { head: wording.say('reference'), text: id },
      { head: wording.say('commission'), text: wording.percent(share) },
    ],
    table: filledTable({
      caption: wording.say('delivery-list'),
      columns: [
        { head: wording.say('count'), isFigure: true },
        { head: wording.say('what'), isFigure: false },
        { head: wording.say('mark'), isFigure: false },
        { head: wording.say('price'), isFigure: true },
        { head: wording.say('studio-share'), isFigure: true },
      ],
      rows: lines.map(({ line, price, own }) => [
        String(line.count),
        wareWords(scene, line, date),
        lotNumber(book, line.lot),
        price === undefined ? wording.say('price-open') : wording.money(price),
        own === undefined ? '' : wording.money(own),
      ]),
    }),
    sums: sentSums(scene, lines, wording.percent(share)),
    texts: saidTexts(book.studio.papers?.galleryTerms),
    signatures: [book.studio.name, name],
  };
}

function sentMoney(
  { book }: PaperScene,
  { date, channel }: Consigned,
  line: NonNullable<Consigned['sent']>[number],
): SentMoney {
  const price = warePrice(book, line, date);
  const whole = price && times(booked(book, price), line.count);
  const share = inForce(book.channels.get(channel), date)?.commission ?? ZERO;
  const own = whole === undefined ? undefined : fractionOf(whole, ONE.minus(share));
  return { price: price && booked(book, price), whole, own };
}

function sentSums(
  { wording, book }: PaperScene,
  lines: readonly SentMoney[],
  share: string,
): PaperSum[] {
  if (lines.some(({ whole }) => whole === undefined)) return [];
  const [whole, own] = (['whole', 'own'] as const).map((key) =>
    total(lines.flatMap((line) => line[key] ?? [])),
  );
  if (whole === undefined || own === undefined) return [];
  return [
    { head: `${wording.say('total')} ${book.studio.currency}`, amount: wording.money(whole) },
    { head: `${wording.say('gallery-share')} ${share}`, amount: wording.money(less(whole, own)) },
    { head: wording.say('studio-share'), amount: wording.money(own), isTotal: true },
  ];
}

/** What one buyer owes of one channel at the end of a day, invoice by invoice, the oldest first. */
export function owedPaper(
  scene: PaperScene,
  channel: Channel,
  { who, debts }: { readonly who: string; readonly debts: readonly Debt[] },
): Paper {
  const { wording, book, asOf } = scene;
  const amounts = debts.map((debt) => billedFor(scene, debt));
  const table: PaperTable = {
    caption: wording.say('statement'),
    columns: [
      { head: wording.say('date'), isFigure: false },
      { head: wording.say('number'), isFigure: false },
      { head: wording.say('what'), isFigure: false },
      { head: wording.say('amount'), isFigure: true },
    ],
    rows: debts.map(({ by, since }, at) => {
      const sale = book.sales.get(by);
      const what = sale ? wording.say('invoice') : wording.say('missing');
      return [
        wording.day(since),
        sale?.number ?? by,
        what,
        wording.money(amounts[at] ?? total([])),
      ];
    }),
  };
  const head = `${wording.say('to-pay')} ${book.studio.currency}`;
  return {
    ...letterOf(scene),
    title: wording.say('statement'),
    to: addressee(scene, who),
    facts: [
      { head: wording.say('date'), text: wording.day(asOf) },
      { head: wording.say('reference'), text: channel.id },
    ],
    ...(debts.length === 0 ? {} : { table }),
    sums:
      debts.length === 0 ? [] : [{ head, amount: wording.money(total(amounts)), isTotal: true }],
    texts: debts.length === 0 ? [wording.say('nothing')] : saidTexts(book.studio.papers?.terms),
  };
}

/** As it is on the invoice: a card fee is no affair of the buyer's. */
function billedFor({ book }: PaperScene, { by, amount }: Debt): Money {
  const sale = book.sales.get(by);
  return sale ? billOf(book, sale).toPay : amount;
}
