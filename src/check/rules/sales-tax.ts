/** Sales tax is what the settings say of it and of its places. */
import type { Channel, NamedBook, Sale, Spent, Studio } from '../../book.ts';
import { decimal, roundTo } from '../../number/decimal.ts';
import { NO_MONEY, moneyText, type Money } from '../../number/money.ts';
import { booked, digitsOf } from '../../reckon/booked.ts';
import { SALES_TAX, isPaidOver } from '../../reckon/sales/paid.ts';
import { taxDiffers as differs } from '../../reckon/tax/sale-tax.ts';
import { channelOf } from '../../reckon/tax/taxed.ts';
import { listed, spot, type Say } from '../finding.ts';
import { didYouMean, nearest } from '../../nearest.ts';
import { each, type EachScene, type Rule } from '../rule.ts';

const salesTaxNone: Rule = {
  name: 'sales-tax-none',
  severity: 'warning',
  about:
    'The settings say sales-tax: none, but have taxes, or a record has sales tax all the same.',
  looks: [each('studio', lookAtSettings), each('channels', lookAtPrices), each('sales', lookAtTax)],
};

function lookAtSettings({ salesTax, taxes, file }: Studio, { say }: EachScene): void {
  if (salesTax !== 'none' || taxes === undefined) return;
  say({
    at: { file, path: ['sales-tax'] },
    message: 'sales-tax says none, but taxes has rates',
    hint: 'take out sales-tax if you are registered; otherwise take out taxes',
    related: [{ at: { file, path: ['taxes'] }, message: 'the rates' }],
  });
}

/** Where the settings contradict themselves, that is said once, there. */
function saysNone({ studio: { salesTax, taxes } }: NamedBook): boolean {
  return salesTax === 'none' && taxes === undefined;
}

function lookAtPrices(channel: Channel, { book, say }: EachScene): void {
  if (!saysNone(book)) return;
  if (channel.taxIncluded === undefined || channel.taxIncluded.isZero()) return;
  say({
    at: spot(channel, 'tax-included'),
    message: `the prices of ${channel.id} have a tax in them, but studio.yaml says sales-tax: none`,
    hint: 'take out one of the two',
  });
}

/** Where the prices have a tax in them, that is said once, at the channel. */
function lookAtTax(sale: Sale, { book, say }: EachScene): void {
  const isZero = sale.tax?.isZero() ?? true;
  if (isZero || !saysNone(book) || channelOf(book, sale)?.taxIncluded !== undefined) return;
  say({
    at: spot(sale, 'tax'),
    message: 'this sale has sales tax, but studio.yaml says sales-tax: none',
    hint: 'if you are registered, take sales-tax out of studio.yaml; otherwise correct the sale',
  });
}

const taxDiffers: Rule = {
  name: 'tax-differs',
  severity: 'warning',
  about: 'The tax of a sale is another than the rate of its place gives, by more than rounding.',
  looks: [each('sales', lookAtRate)],
};

function lookAtRate(sale: Sale, { book, say }: EachScene): void {
  if (sale.tax === undefined || book.studio.taxes === undefined) return;
  const byRate = differs(book, sale);
  if (!byRate) return;
  const inWords = (amount: Money): string => moneyText(amount, digitsOf(book));
  const percent = roundTo(byRate.rate.percent.times(decimal(100)), 8).toString();
  const due = byRate.tax === NO_MONEY ? '0' : inWords(byRate.tax);
  say({
    at: spot(sale, 'tax'),
    message: `the tax is ${inWords(booked(book, sale.tax))}, but ${percent}% of the taxed ${inWords(byRate.sold)} is ${due}`,
    hint: 'correct the tax, or say taxed: no or yes on its lines; if it was collected so, leave it',
  });
}

const taxPlace: Rule = {
  name: 'tax-place',
  severity: 'error',
  about:
    'A tax place is not among the taxes of the settings, where there are any; or a payment of sales tax names none, or another expense names one.',
  looks: [
    each(['channels', 'sales'], lookAtPlace),
    each('spent', (spent, scene) => {
      if (isPaidOver(scene.book, spent)) lookAtPayment(spent, scene);
      else if (spent.taxPlace !== undefined) sayNoPayment(spent, scene.say);
    }),
  ],
};

function lookAtPlace(record: Channel | Sale | Spent, scene: EachScene): void {
  const { taxes } = scene.book.studio;
  const { taxPlace: place } = record;
  if (taxes === undefined || place === undefined) return;
  const places = new Set(taxes.map((each) => each.place));
  if (places.has(place) || scene.unsound.kinds.has('studio')) return;
  const meant = nearest(place, places);
  scene.say({
    at: spot(record, 'tax-place'),
    message: `"${place}" is not a place under taxes in studio.yaml`,
    hint: didYouMean(
      meant,
      `write ${listed([...places], 'or')}; or add the place to taxes, at 0% where you collect nothing`,
    ),
  });
}

function lookAtPayment(spent: Spent, scene: EachScene): void {
  const { taxes } = scene.book.studio;
  if (spent.taxPlace !== undefined || taxes === undefined) {
    lookAtPlace(spent, scene);
    return;
  }
  const places = [...new Set(taxes.map(({ place }) => place))];
  scene.say({
    at: spot(spent, 'for'),
    message: 'this payment of sales tax does not say to which place',
    hint: `write tax-place: ${listed(places, 'or')}`,
  });
}

function sayNoPayment(spent: Spent, say: Say): void {
  say({
    at: spot(spent, 'tax-place'),
    message: `an expense for ${spent.for} has no tax place`,
    hint: `write for: ${SALES_TAX} where this pays collected sales tax over; otherwise take tax-place out`,
  });
}

/** The rules on sales tax. */
export const SALES_TAX_RULES: readonly Rule[] = [salesTaxNone, taxDiffers, taxPlace];
