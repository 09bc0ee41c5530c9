/** Amounts are in a known currency and its decimals, and stand where they are needed, once. */
import type { FieldSpec } from '../../../schema/generated/fields.js';
import { recordsNaming } from '../../among.ts';
import {
  KINDS,
  type Book,
  type Bought,
  type BoughtLine,
  type Day,
  type Discount,
  type Lot,
  type NamedBook,
  type Studio,
} from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { counted } from '../../in-words.ts';
import { isDecimal, roundTo, ZERO, type Decimal } from '../../number/decimal.ts';
import { minorDigits } from '../../number/money.ts';
import { dimensionOf } from '../../number/unit.ts';
import { gramsOf } from '../../reckon/stock/stock-flow.ts';
import { eachStating, findEach, keySpot, spot, twice, type RuleFinding } from '../finding.ts';
import { each, onDay, over, type EachScene, type Rule } from '../rule.ts';
import { faultFinder } from '../walk.ts';

const unknownCurrency: Rule = {
  name: 'unknown-currency',
  severity: 'error',
  about: "The studio's currency is not a code of ISO 4217.",
  looks: [
    each('studio', ({ currency, file }, { say }) => {
      // A currency that is missing is a fault of the settings already.
      if (currency === '' || minorDigits(currency) !== undefined) return;
      say({
        at: { file, path: ['currency'] },
        message: `${currency} is not a currency code`,
        hint: 'write the three letters of ISO 4217, such as USD, EUR or GBP',
      });
    }),
  ],
};

const MONEY: ReadonlySet<FieldSpec['type']> = new Set(['amount', 'rate', 'discount']);

const tooManyDecimals: Rule = {
  name: 'too-many-decimals',
  severity: 'error',
  about: 'An amount has more decimals than the currency, or a rate more than eight.',
  looks: [
    each('studio', lookAtSettings),
    each(KINDS, (record, { book, say }, kind) => {
      for (const { path, value, spec } of findFaults(kind, record, book))
        say({
          at: spot(record, ...path),
          ...words(
            moneyIn(value),
            spec.type === 'rate' ? RATE : { most: mostOf(book), of: book.studio.currency },
          ),
        });
    }),
  ],
};

/** The labour rate, and what it is from a day on. */
function lookAtSettings(studio: Studio, { say }: EachScene): void {
  eachStating(studio, ({ labourRate }, above) => {
    const at = { file: studio.file, path: [...above, 'labour-rate'] };
    if (!hasAtMost(labourRate, RATE.most)) say({ at, ...words(labourRate, RATE) });
  });
}

interface Limit {
  readonly most: number;
  /** What has that many decimals. */
  readonly of: string;
}

/** A price per unit may be a small part of a cent, but past this it is a slip. */
const RATE: Limit = { most: 8, of: 'a price per unit' };

const findFaults = faultFinder({
  wants: (spec) => MONEY.has(spec.type),
  tester: (spec) =>
    spec.type === 'rate'
      ? (value) => hasAtMost(moneyIn(value), RATE.most)
      : (value, book) => hasAtMost(moneyIn(value), mostOf(book)),
});

function mostOf({ studio: { currency } }: NamedBook): number {
  return minorDigits(currency) ?? Infinity;
}

function moneyIn(value: unknown): Decimal | undefined {
  if (isDecimal(value)) return value;
  return (value as Discount).amount;
}

function hasAtMost(money: Decimal | undefined, most: number): boolean {
  return money === undefined || money.decimalPlaces() <= most;
}

function words(
  money: Decimal | undefined,
  { most, of }: Limit,
): Pick<RuleFinding, 'message' | 'hint'> {
  const decimals = counted(money?.decimalPlaces() ?? 0, 'decimal');
  const limit = most === 0 ? 'none' : `at most ${most}`;
  return {
    message: `${money?.toFixed() ?? ''} has ${decimals}, but ${of} has ${limit}`,
    hint: `write ${money ? roundTo(money, most).toFixed(most) : ''}, rounded to ${most === 0 ? 'a whole number' : counted(most, 'decimal')}`,
  };
}

const priceMissing: Rule = {
  name: 'price-missing',
  severity: 'warning',
  about: 'A product has finished ware, but neither it nor the lot has a price.',
  looks: [
    onDay({ products: 'all', pieces: 'all', firings: 'all' }, (book, { day }) => {
      const waiting = finishedWithoutPrice(book, day);
      return findEach(book.products, (product, say) => {
        const lot = waiting.get(product.id);
        if (lot === undefined) return;
        say({
          at: keySpot(product),
          message: `${product.id} has finished ware and no price`,
          hint: 'add a price to the product, or to the lot if it is a one-off',
          related: [{ at: keySpot(lot), message: 'the first lot of it' }],
        });
      });
    }),
  ],
};

type WareBook = Pick<Book, 'products' | 'pieces' | 'firings'>;

/** Product id → its first finished lot that has no price, of products without one on the day. */
function finishedWithoutPrice(book: WareBook, day: Day): ReadonlyMap<string, Lot> {
  const products = [...book.products.values()].filter((each) => {
    const { price, wholesale } = inForce(each, day);
    return price === undefined && wholesale === undefined;
  });
  const waiting = new Map<string, Lot>();
  if (products.length === 0) return waiting;
  const ids = new Set(products.map(({ id }) => id));
  const lots = [...recordsNaming(book.pieces, ids)].filter(
    ({ product, price }) => price === undefined && ids.has(product),
  );
  const finished = finishedLots(book, lots);
  for (const lot of lots) {
    const known = waiting.get(lot.product);
    if (known !== undefined && known.date <= lot.date) continue;
    if (finished.has(lot)) waiting.set(lot.product, lot);
  }
  return waiting;
}

/** Those of which something came out of the last firing of their product. */
function finishedLots(book: WareBook, all: readonly Lot[]): ReadonlySet<Lot> {
  const named = new Map(all.map((lot) => [lot.id, lot]));
  const finished = new Set<Lot>();
  for (const { kind, load } of recordsNaming(book.firings, new Set(named.keys()))) {
    const out = load.filter(({ first = 0, second = 0 }) => first + second > 0);
    const lots = out.flatMap(({ lot = '' }) => named.get(lot) ?? []);
    lots.filter((lot) => kind === lastFiring(book, lot)).forEach((lot) => finished.add(lot));
  }
  return finished;
}

function lastFiring({ products }: WareBook, { product, date }: Lot): string | undefined {
  const fired = inForce(products.get(product), date)?.fired;
  return fired === undefined ? 'glaze' : fired.at(-1);
}

const freightWeightMissing: Rule = {
  name: 'freight-weight-missing',
  severity: 'error',
  about:
    'Freight is to be shared by weight, but a line has no weight; until it has, it bears no freight.',
  looks: [
    each('bought', (bought, { book, say }) => {
      const { lines, freight = ZERO, shareFreightBy } = bought;
      // One line alone bears all of the freight, whatever it weighs.
      if (shareFreightBy !== 'weight' || freight.isZero() || lines.length === 1) return;
      lines.forEach((line, index) => {
        if (gramsOf(line) !== undefined || isBadUnit(book, line)) return;
        say({
          at: spot(bought, 'lines', index),
          message: `line ${index + 1} (${line.quantity.text} ${line.material}) has no weight, but freight is shared by weight`,
          hint: 'write weight on this line, what all of it weighs, such as weight: 3 kg; or leave out share-freight-by, and freight is shared by cost',
        });
      });
    }),
  ],
};

/** A count or volume of what is kept by weight, of which `bad-unit` speaks. */
function isBadUnit(book: NamedBook, { material }: BoughtLine): boolean {
  const unit = book.materials.get(material)?.unit;
  return unit !== undefined && dimensionOf(unit) === 'weight';
}

const invoiceTwice: Rule = {
  name: 'invoice-twice',
  severity: 'warning',
  about: 'Two purchases carry the same invoice number of the same supplier.',
  looks: [
    over({ bought: { having: 'invoice' } }, (book) => {
      const invoiced = [...book.bought.values()].filter(({ invoice }) => invoice !== undefined);
      const numberOf = ({ supplier, invoice }: Bought): string => `${supplier}\n${invoice ?? ''}`;
      return twice(invoiced, (each) => numberOf(each).toLowerCase()).map(([purchase, earlier]) => ({
        at: spot(purchase, 'invoice'),
        message: `invoice ${purchase.invoice ?? ''} of ${purchase.supplier} is already in ${earlier.id}`,
        hint: 'take one of the two out, unless the invoice was split on purpose',
        related: [{ at: keySpot(earlier), message: 'the other purchase' }],
      }));
    }),
  ],
};

/** The rules on amounts and prices. */
export const MONEY_RULES: readonly Rule[] = [
  unknownCurrency,
  tooManyDecimals,
  priceMissing,
  freightWeightMissing,
  invoiceTwice,
];
