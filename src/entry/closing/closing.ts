/** The end of a fair day: what is gone and comes to, the money that is there, and the sale to write. */
import type { Book, Sale } from '../../book.ts';
import { checkFile } from '../../check/schema.ts';
import { typeRecord } from '../../check/typed.ts';
import { decimal } from '../../number/decimal.ts';
import {
  NO_MONEY,
  add,
  less,
  lesser,
  moneyText,
  times,
  total,
  type Money,
} from '../../number/money.ts';
import {
  isList,
  isMap,
  mapping,
  textOrEmpty,
  valueAt,
  type Raw,
  type RawMap,
} from '../../read/raw.ts';
import { booked, digitsOf } from '../../reckon/booked.ts';
import { saleMoney } from '../../reckon/sales/sale-money.ts';
import type { Refused } from '../../write/parts.ts';
import { expandRecord } from '../expand.ts';
import type { Lexicon } from '../lexicon.ts';
import { withSaleTax } from '../sale-tax.ts';
import {
  countGone,
  hasReader,
  takingsOf,
  wareName,
  type Counts,
  type DayTakings,
  type FairDay,
  type WareRow,
} from './count.ts';
import { AMOUNT, type SoldWare } from './said.ts';

/** A studio's book and words. */
export interface ClosingGround {
  readonly book: Book;
  readonly lexicon: Lexicon;
}

/** What was counted: ware and money. */
interface CountedDay extends Counts {
  readonly cash: Money | undefined;
  /** In the box before the first sale. */
  readonly float: Money;
  /** The card reader's total of the day. */
  readonly card: Money | undefined;
}

/** Ware that is gone, with its usual price. */
export interface GoneRow extends WareRow {
  /** Undefined where its product has none. */
  readonly price: Money | undefined;
}

/** How a fair day ended. */
export interface Closing {
  readonly at: FairDay;
  readonly counted: CountedDay;
  /** Only what is gone. */
  readonly gone: readonly GoneRow[];
  /** What the gone pieces come to at their usual prices, with what tax is added. */
  readonly usual: Money;
  readonly takings: DayTakings;
  /** Cash less float, and the card total; undefined where no cash was counted. */
  readonly there: Money | undefined;
}

/** Looks at what was counted; refused where it can't be. */
export function closingOf(
  ground: ClosingGround,
  at: FairDay,
  counted: CountedDay,
): Closing | Refused {
  const { book } = ground;
  const rows = countGone(book, at, counted);
  if ('refused' in rows) return rows;
  const takings = takingsOf(book, at);
  const refusal = faultOfCard(book, at, { takings, card: counted.card });
  if (refusal) return refusal;
  const gone = rows.filter((row) => row.gone > 0);
  const priced = withPrices(ground, at, gone);
  const sold = priced
    .filter(({ price }) => price !== undefined)
    .map(({ product, glaze, grade, gone: count }) => ({ product, glaze, grade, count }));
  const sale = typedSale(saleFields(ground, at, { lines: sold, more: mapping([]) }));
  const { cash, float, card = NO_MONEY } = counted;
  return {
    at,
    counted,
    gone: priced,
    usual: sold.length === 0 || 'refused' in sale ? NO_MONEY : saleMoney(book, sale).due,
    takings,
    there: cash === undefined ? undefined : add(less(cash, float), card),
  };
}

function faultOfCard(
  book: Book,
  at: FairDay,
  { takings, card }: { takings: DayTakings; card: Money | undefined },
): Refused | undefined {
  if (card === undefined)
    return hasReader(book, at)
      ? { refused: 'say what went through the card reader all day with --card, 0 for nothing' }
      : undefined;
  if (card >= takings.card) return undefined;
  const [said, known] = [card, takings.card].map((each) => moneyText(each, digitsOf(book)));
  const [first, ...others] = takings.unsaid;
  const hint = first
    ? `${[first, ...others].map(({ id }) => id).join(', ')} ${others.length > 0 ? 'do' : 'does'} not say how much was cash: saggar amend ${first.id} card=AMOUNT`
    : 'correct --card, or the card of those sales with saggar amend';
  return {
    refused: `--card: ${said} by card is less than the ${known} of the sales on record that day; ${hint}`,
  };
}

interface SaleParts {
  readonly lines: readonly SoldWare[];
  readonly more: RawMap;
}

/** A sale at the fair as it is to be written, with the sales tax of its place. */
function saleFields(
  { book, lexicon }: ClosingGround,
  { fair, day }: FairDay,
  { lines, more }: SaleParts,
): RawMap {
  const typed = mapping([
    ['date', day],
    ['channel', fair.channel],
    ['fair', fair.id],
    ['lines', lines.map(lineFields)],
    ...Object.entries(more),
  ]);
  return withSaleTax(book, expandRecord('sales', typed, { lexicon, day }).fields);
}

function lineFields({ product, glaze, grade, count, price }: SoldWare): RawMap {
  const fields = { product, glaze, grade, count: String(count), price };
  return mapping(
    Object.entries(fields).filter((entry): entry is [string, string] => entry[1] !== undefined),
  );
}

function withPrices(ground: ClosingGround, at: FairDay, rows: readonly WareRow[]): GoneRow[] {
  const wares = rows.map(({ product, glaze, grade, gone }) => ({
    product,
    glaze,
    grade,
    count: gone,
  }));
  const lines = saleFields(ground, at, { lines: wares, more: mapping([]) })['lines'];
  return rows.map((row, index) => {
    const text = isList(lines) ? priceIn(lines[index]) : undefined;
    const isSound = text !== undefined && AMOUNT.test(text);
    return { ...row, price: isSound ? booked(ground.book, decimal(text)) : undefined };
  });
}

function priceIn(line: Raw | undefined): string | undefined {
  const price = valueAt(line, ['price']);
  return typeof price === 'string' ? price : undefined;
}

const DRAFT = 'sale-of-the-day';

/** The sale of its fields; refused with the first thing that is wrong with them. */
function typedSale(fields: RawMap): Sale | Refused {
  const file = { file: DRAFT, kind: 'sales' as const, root: { [DRAFT]: fields }, odd: false };
  const [finding] = checkFile(file, () => undefined).findings;
  if (finding) return { refused: `${finding.message}; ${finding.hint}` };
  return typeRecord('sales', fields, { id: DRAFT, file: DRAFT });
}

/** What the gone pieces come to, as one line each; undefined without a price. */
export function comesTo({ price, gone }: GoneRow): Money | undefined {
  return price === undefined ? undefined : times(price, gone);
}

/** The sale of what was sold, and what the box should then have. */
export interface DaySale {
  readonly fields: RawMap;
  readonly due: Money;
  /** How much of the card total it could not take, since it comes to less. */
  readonly cardLeft: Money;
}

/** Makes the sale; the card total less what sales on record have of it goes with it, as far as it comes to that. */
export function daySale(
  ground: ClosingGround,
  { at, counted, takings }: Closing,
  parts: SaleParts,
): DaySale | Refused {
  const plain = saleFields(ground, at, parts);
  const unpriced = saleLinesIn(plain).find((line) => line['price'] === undefined);
  if (unpriced) {
    const [product = '', ...sort] = ['product', 'glaze', 'grade'].map((key) =>
      textOrEmpty(unpriced[key]),
    );
    const name = [textOrEmpty(unpriced['count']), product, ...sort].filter((word) => word !== '');
    return { refused: `${product} has no price; write --sold "${name.join(' ')} at PRICE"` };
  }
  const sale = typedSale(plain);
  if ('refused' in sale) return sale;
  const { due } = saleMoney(ground.book, sale);
  if (counted.card === undefined) return { fields: plain, due, cardLeft: NO_MONEY };
  const left = less(counted.card, takings.card);
  const card = lesser(left, due > NO_MONEY ? due : NO_MONEY);
  const text = moneyText(card, digitsOf(ground.book));
  const more = mapping([...Object.entries(parts.more), ['card', text]]);
  return {
    fields: saleFields(ground, at, { ...parts, more }),
    due,
    cardLeft: less(left, card),
  };
}

function saleLinesIn({ lines }: RawMap): readonly RawMap[] {
  return isList(lines) ? lines.filter(isMap) : [];
}

/** What should be in the box and on the reader: takings on record, and what the gone pieces come to. */
export function shouldBe({ usual, takings }: Closing): Money {
  return add(takings.all, usual);
}

/** All gone pieces that have no price. */
export function withoutPrice({ gone }: Closing): readonly string[] {
  return gone.filter(({ price }) => price === undefined).map(wareName);
}

/** What rows come to by themselves, without what is added to them. */
export function rowsComeTo({ gone }: Closing): Money {
  return total(gone.map((row) => comesTo(row) ?? NO_MONEY));
}
