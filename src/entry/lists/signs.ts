/** Signs of a list's amounts: what is below zero came back, and a fee is what was taken off. */
import { divide, decimal, type Decimal } from '../../number/decimal.ts';
import { mapping, type Growing, type Raw, type RawMap } from '../../read/raw.ts';

/** A line of a record as its row says it: figures with their signs. */
export interface SignedLine {
  readonly fields: RawMap;
  readonly count?: Decimal;
  readonly price?: Decimal;
  /** Of the whole line. */
  readonly amount?: Decimal;
}

/** A sale but for its lines, with amounts as the list has them. */
interface SignedSale {
  readonly fields: RawMap;
  readonly told: Readonly<Partial<Record<'total' | 'net', Decimal>>>;
  readonly feesBelowZero: boolean;
  readonly digits: number;
}

const ONE_PIECE = decimal(1);

/** The price of one, as far as the line says it without a remainder. */
export function priceOfLine({ count = ONE_PIECE, price, amount }: SignedLine): Decimal | undefined {
  if (price || !amount || count.isZero()) return price?.abs();
  return divide(amount.abs(), count.abs());
}

/** Whether the line says what came back. */
export function isBackLine({ count, price, amount }: SignedLine): boolean {
  const isBelow = (figure: Decimal | undefined): boolean => figure?.isNegative() === true;
  return isBelow(amount) || isBelow(count) !== isBelow(price);
}

/** The line as a sale has it. */
export function saleLine(line: SignedLine, digits: number): RawMap {
  const price = priceOfLine(line);
  return mapping([
    ...Object.entries(line.fields),
    ['count', (line.count ?? ONE_PIECE).abs().toFixed()],
    ...(price ? ([['price', price.toFixed(digits)]] as const) : []),
    ...(isBackLine(line) ? ([['returned', 'yes']] as const) : []),
  ]);
}

/**
 * The sale as the book has it. Of a sale of returns alone what was given back is written above zero; a fee
 * is what lies between what was charged and what came of it, where the list has no fee of its own.
 */
export function signedSale(sale: SignedSale, lines: readonly SignedLine[]): RawMap {
  const isBack = lines.length > 0 && lines.every(isBackLine);
  const fields: Growing = { ...sale.fields };
  const put = (name: string, amount: Decimal): void => {
    fields[name] = (isBack ? turned(amount) : amount).toFixed(sale.digits);
  };
  for (const name of ['shipping', 'tax', 'card', 'fee', 'commission']) {
    const text = fields[name];
    if (typeof text !== 'string') continue;
    const isTaken = name === 'fee' || name === 'commission';
    put(name, isTaken && sale.feesBelowZero ? turned(decimal(text)) : decimal(text));
  }
  const { total, net } = sale.told;
  if (total && net && fields['fee'] === undefined && fields['commission'] === undefined)
    put('fee', total.minus(net));
  return withoutNothing(fields);
}

/** An amount with the other sign; nothing has none. */
export function turned(amount: Decimal): Decimal {
  return amount.isZero() ? amount : amount.neg();
}

/** No shipping and no discount are not written; no fee and no tax say that the usual ones are not due. */
function withoutNothing(fields: RawMap): RawMap {
  const isNothing = (name: string, value: Raw): boolean =>
    ['shipping', 'discount'].includes(name) &&
    typeof value === 'string' &&
    !value.endsWith('%') &&
    decimal(value).isZero();
  const positive = Object.entries(fields).map(
    ([name, value]) =>
      [
        name,
        name === 'discount' && typeof value === 'string' ? value.replace(/^-/, '') : value,
      ] as const,
  );
  return mapping(positive.filter(([name, value]) => !isNothing(name, value)));
}
