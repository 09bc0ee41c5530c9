/** What tables of costs say below them, in one wording: the rate of an hour, overhead, floors, what changed. */
import type { Book, Day } from '../book.ts';
import { inForce, type Changing, changesInOrder } from '../in-force.ts';
import { decimal, type Decimal } from '../number/decimal.ts';
import { NO_MONEY, moneyText, roundedMoney, type Money } from '../number/money.ts';
import { digitsOf } from '../reckon/booked.ts';
import type { Overhead } from '../reckon/costs/overhead.ts';
import type { ProductCost } from '../reckon/costs/product-cost.ts';
import { withoutCost } from '../reckon/costs/usual-steps.ts';
import type { Flows } from '../reckon/flows.ts';
import { sentences } from '../in-words.ts';
import { compareTexts } from '../text-order.ts';

/** An amount or a rate in a sentence, with the currency's decimals. */
export function amountInWords(book: Book, amount: Decimal | Money): string {
  const digits = digitsOf(book);
  return moneyText(typeof amount === 'bigint' ? amount : roundedMoney(amount, digits), digits);
}

/** How the overhead was spread, and what was kept out of it so that nothing counts twice. */
export function overheadInWords(book: Book, overhead: Overhead): string[] {
  const { total } = overhead;
  const left = keptOut(book, overhead);
  if (total === NO_MONEY && left === undefined)
    return ['Overhead: no running expenses are on record.'];
  return sentences(`Overhead: ${amountInWords(book, total)} ${spread(book, overhead)}.`, left);
}

/** Which channel stands for its kind: the dearest. */
export function channelsInWords(costs: readonly ProductCost[]): string {
  const named = costs.flatMap(({ prices }) =>
    prices.map(({ kind, channel }) => `${kind} (${channel.id})`),
  );
  if (named.length === 0) return 'No channel is on record, so there is no price floor.';
  const names = [...new Set(named)].join(', ');
  return `A floor is the least price of one piece, sold alone, that covers its cost: ${names}.`;
}

/** What work is worth in the cost, and what an hour of it is left. */
export function workInWords(book: Book, asOf: Day): string {
  const { labourRate } = inForce(book.studio, asOf);
  const hour = 'Per hour: what the price leaves for each hour of your work before you pay yourself';
  if (!labourRate)
    return `${hour}; cost does not include your work, since studio.yaml has no labour-rate.`;
  return `${hour}; cost includes your work at ${amountInWords(book, labourRate)} an hour.`;
}

/** What has no cost because nothing of it came in yet, which makes an estimate too low. */
export function costlessInWords(
  book: Book,
  flows: Flows,
  costs: readonly ProductCost[],
): string | undefined {
  const estimated = costs.filter((cost) => cost.estimated);
  const found = estimated.flatMap(({ product }) => withoutCost(book, flows, product));
  if (found.length === 0) return undefined;
  const ids = [...new Set(found)].sort().join(', ');
  return `No cost known, since none was bought or mixed yet: ${ids}. The real cost is higher.`;
}

const MINUTES_OF_AN_HOUR = decimal(60);

function spread(book: Book, { by, over, rate }: Overhead): string {
  if (over.isZero()) return 'of running expenses, and nothing was made to spread them over';
  if (by === 'space') {
    const each = `${amountInWords(book, rate)} for each firing of a piece of space 1`;
    return `of running expenses, spread by kiln space: ${each}`;
  }
  const hour = amountInWords(book, rate.times(MINUTES_OF_AN_HOUR));
  return `of running expenses, spread by minutes of work: ${hour} per hour`;
}

function keptOut(book: Book, { energyPaid, wearPaid, workPaid }: Overhead): string | undefined {
  const kept = [
    { amount: energyPaid, words: 'of utilities (energy of the firings)' },
    { amount: wearPaid, words: 'of kiln parts (counted as wear)' },
    { amount: workPaid, words: 'of wages (hours are charged at the labour-rate)' },
  ].filter(({ amount }) => amount !== NO_MONEY);
  if (kept.length === 0) return undefined;
  const words = kept.map((each) => `${amountInWords(book, each.amount)} ${each.words}`).join('; ');
  return `Left out of overhead, since counted elsewhere: ${words}. Costs of selling are left out too.`;
}

/** `24.00 an hour, 27.00 from 2026-05-01`: the labour rates up to a day; undefined where there is none. */
export function labourInWords({ studio }: Book, asOf: Day): string | undefined {
  const later = changesInOrder(studio).filter(({ from }) => from <= asOf);
  const rates = [
    { rate: studio.labourRate, since: '' },
    ...later.map(({ from }) => ({
      rate: inForce(studio, from).labourRate,
      since: ` from ${from}`,
    })),
  ];
  const known = rates.filter(({ rate }, index) => rate !== undefined || index > 0);
  if (known.every(({ rate }) => rate === undefined)) return undefined;
  return known
    .map(({ rate, since }, at) => {
      if (rate === undefined) return `nothing${since}`;
      return `${rate.toFixed(2)}${at === 0 ? ' an hour' : ''}${since}`;
    })
    .join(', ');
}

/**
 * Which of the products and all channels and the labour rate changed within a span, and when: their
 * figures above rest on what was in force on each day, prices and floors on what is in force at the end.
 */
export function changesInWords(
  { studio, channels, products }: Book,
  ids: readonly string[],
  span: { readonly from: Day; readonly to: Day },
): string | undefined {
  const named: (readonly [string, Changing | undefined])[] = [
    ...ids.map((id) => [id, products.get(id)] as const),
    ...[...channels].sort(([one], [other]) => compareTexts(one, other)),
    ['labour-rate', studio],
  ];
  const changed = named.flatMap(([name, definition]) => {
    const days = changesInOrder(definition ?? {}).map(({ from }) => from);
    const within = days.filter((day) => span.from <= day && day <= span.to);
    return within.length === 0 ? [] : [`${name} (${within.join(', ')})`];
  });
  return changed.length === 0 ? undefined : `Changed in this span: ${changed.join('; ')}.`;
}
