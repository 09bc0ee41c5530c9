/** What matters of one material, firing, gallery or product, in a sentence. */
import type { Book, Day } from '../book.ts';
import { counted } from '../in-words.ts';
import { digitsOf } from '../reckon/booked.ts';
import type { ProductCost } from '../reckon/costs/product-cost.ts';
import type { KindPrice } from '../reckon/costs/kind-price.ts';
import type { FiringCost } from '../reckon/kilns/firing-cost.ts';
import type { Depletion } from '../reckon/stock/depletion.ts';
import type { GalleryStanding } from '../reckon/ware/gallery.ts';
import { amountInWords } from './cost-words.ts';
import { amountText, stockLeftText } from './day/day-words.ts';
import type { Row, Verdict } from './table.ts';

const COUNT = { type: 'count' } as const;

/** How long a material lasts, and when it is to be ordered. */
export function materialVerdict(stock: Depletion, asOf: Day): Verdict {
  return { sentence: stockSentence(stock, asOf), figures: [] };
}

function stockSentence(stock: Depletion, asOf: Day): string {
  const { state, orderBy, isToOrder } = stock;
  if (isToOrder) return `To order today: ${stockLeftText(stock)}.`;
  if (state === 'out') return 'Nothing left.';
  const when = orderBy === undefined || orderBy < asOf ? '' : `; to order by ${orderBy}`;
  return `${stockLeftText(stock)}${when}.`;
}

/** What a load cost, and how many were lost of it; undefined where nothing was in it. */
export function loadVerdict(book: Book, cost: FiringCost, totals: Row): Verdict | undefined {
  const { pieces, total } = cost;
  if (pieces === 0) return undefined;
  const { perPiece = null, lost = null } = totals;
  const each = amountText(total, digitsOf(book));
  const end = lost === 0 ? '' : `; ${String(lost)} ${lost === 1 ? 'was' : 'were'} lost`;
  return {
    sentence: `It cost ${each} for ${counted(pieces, 'piece')}${end}.`,
    figures: [
      { label: 'Per piece', column: { type: 'rate' }, cell: perPiece },
      { label: 'Lost', column: COUNT, cell: lost },
    ],
  };
}

/** What is still at a gallery, and what it owes since when. */
export function galleryVerdict(
  book: Book,
  { here, oldest, unpaid, debts }: GalleryStanding,
  totals: Row,
): Verdict {
  const days = oldest === undefined ? '' : `, the oldest for ${counted(oldest, 'day')}`;
  const there = here === 0 ? 'Nothing is there' : `${counted(here, 'piece')} there${days}`;
  const since = debts[0]?.since;
  const owed =
    since === undefined
      ? 'nothing is owed to you'
      : `${amountText(unpaid, digitsOf(book))} is owed to you since ${since}`;
  return {
    sentence: `${there}; ${owed}.`,
    figures: [
      { label: 'Still there', column: COUNT, cell: totals['here'] ?? null },
      { label: 'Your share', column: { type: 'money' }, cell: totals['yours'] ?? null },
    ],
  };
}

/** Where it is sold below cost, in the words that are given, else where it leaves most for an hour. */
export function productVerdict(
  book: Book,
  { prices, cost }: ProductCost,
  belowCost: string | undefined,
): Verdict | undefined {
  const figures = [
    { label: 'One good piece', column: { type: 'rate' } as const, cell: cost.total },
  ];
  if (belowCost !== undefined) return { sentence: belowCost, figures };
  const [best] = prices.flatMap(withHour).sort((one, other) => other.perHour.cmp(one.perHour));
  if (!best) return undefined;
  const each = amountInWords(book, best.perHour);
  return {
    sentence: `Every price covers the cost; ${best.kind} leaves most for an hour of work, ${each}.`,
    figures,
  };
}

function withHour({ kind, perHour }: KindPrice) {
  return perHour === undefined ? [] : [{ kind, perHour }];
}
