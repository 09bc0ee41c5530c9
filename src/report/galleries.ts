/** Goods on consignment: what each gallery has, has sold and owes, and the history of one by its deliveries. */
import { counted, sentences } from '../in-words.ts';
import { once } from '../once.ts';
import type { Book, Day } from '../book.ts';
import { NO_MONEY, add, total, type Money } from '../number/money.ts';
import { booked, digitsOf } from '../reckon/booked.ts';
import type { Flows } from '../reckon/flows.ts';
import {
  galleryStandings,
  paidStatements,
  sentPrice,
  standingTotal,
  type DeliveryStanding,
  type GalleryStanding,
  type GalleryFigures,
} from '../reckon/ware/gallery.ts';
import { isOpening } from '../reckon/stock/opening.ts';
import { amountText } from './day/day-words.ts';
import { broughtByParts, type BroughtByColumn } from './brought.ts';
import { cellsOf, perPiece, tableHead, withRows } from './head.ts';
import type { AddedUp, ColumnOf, Table } from './table.ts';
import { galleriesAlerts, galleriesVerdict } from './verdicts/galleries.ts';

const COUNTS: readonly ColumnOf<GalleryFigures>[] = [
  { key: 'sent', title: 'Sent', type: 'count' },
  { key: 'sold', title: 'Sold', type: 'count' },
  { key: 'back', title: 'Returned', type: 'count' },
  { key: 'missing', title: 'Missing', type: 'count' },
  { key: 'broken', title: 'Broken', type: 'count', drop: 2 },
  { key: 'here', title: 'Still there', type: 'count' },
];

const GALLERY_COLUMNS: readonly ColumnOf<ReturnType<typeof galleryLine>>[] = [
  { key: 'gallery', title: 'Gallery', type: 'id' },
  { key: 'name', title: 'Name', type: 'text', drop: 5, isName: true },
  ...COUNTS,
  { key: 'value', title: 'Value', type: 'money' },
  { key: 'oldestDays', title: 'Days', type: 'count' },
  { key: 'takings', title: 'Takings', type: 'money', drop: 4 },
  { key: 'commission', title: 'Commission', type: 'money', drop: 3 },
  { key: 'unpaid', title: 'Unpaid', type: 'money' },
  { key: 'owedSince', title: 'Owed since', type: 'date', drop: 2 },
  { key: 'owedForMissing', title: 'Owed for missing', type: 'money', drop: 1 },
];

/** What is there still is what was sent less what became of the rest. */
const GALLERY_SUMS: readonly AddedUp[] = [
  { total: 'here', plus: ['sent'], less: ['sold', 'back', 'missing', 'broken'] },
];

/** What a narrow terminal has below the row, the highest first. */
const DROPS: Readonly<Record<string, number>> = { broken: 8, back: 4, missing: 1 };

const DELIVERY_COLUMNS: readonly ColumnOf<ReturnType<typeof deliveryLine>>[] = [
  { key: 'date', title: 'Sent on', type: 'date' },
  { key: 'record', title: 'Record', type: 'id', drop: 9 },
  { key: 'product', title: 'Product', type: 'id' },
  { key: 'glaze', title: 'Glaze', type: 'text', drop: 5 },
  { key: 'grade', title: 'Grade', type: 'text', drop: 10 },
  { key: 'lot', title: 'Lot', type: 'id', drop: 11 },
  { key: 'price', title: 'Price', type: 'money' },
  ...COUNTS.map((column) => {
    const drop = DROPS[column.key];
    return drop === undefined ? column : { ...column, drop };
  }),
  { key: 'soldEach', title: 'Sold at', type: 'rate', drop: 2, from: 'Takings ÷ Sold' },
  { key: 'takings', title: 'Takings', type: 'money', drop: 12 },
  { key: 'commission', title: 'Commission', type: 'money', drop: 3 },
  { key: 'owedForMissing', title: 'Owed for missing', type: 'money', drop: 6 },
  { key: 'value', title: 'Value', type: 'money', drop: 7 },
  { key: 'oldestDays', title: 'Days', type: 'count' },
];

/** What adds up. */
const ADDING_UP: readonly ColumnOf<GalleryFigures>[] = [
  ...COUNTS,
  { key: 'value', title: '', type: 'money' },
  { key: 'takings', title: '', type: 'money' },
  { key: 'commission', title: '', type: 'money' },
  { key: 'owedForMissing', title: '', type: 'money' },
];

/** Every gallery, those with the most value there first. */
export function galleriesTable(book: Book, flows: Flows): Table {
  const { asOf } = flows.stock;
  const galleries = galleryStandings(book, flows).sort(mostFirst);
  const unpaid = total(galleries.map((each) => each.unpaid));
  const whole = standingTotal(galleries);
  const totals = { gallery: 'total', ...cellsOf(ADDING_UP, whole), unpaid };
  return {
    report: 'galleries',
    title: `Goods on consignment on ${asOf}`,
    ...tableHead(book, asOf),
    ...withRows(GALLERY_COLUMNS, galleries.map(galleryLine)),
    sums: GALLERY_SUMS,
    totals,
    verdict: galleriesVerdict(galleries, {
      columns: GALLERY_COLUMNS,
      totals,
      minorDigits: digitsOf(book),
    }),
    alerts: galleriesAlerts(galleries, asOf),
    notes: sentences(
      'Goods stay yours until the gallery sells them. Days: how long the oldest piece has been there.',
      ...deliveryNotes(book, galleries),
      whole.owedForMissing !== NO_MONEY && 'Unpaid has in it what is owed for missing pieces.',
      paidForMissing(book, whole),
    ),
    behind: once(() =>
      galleries.map(({ gallery, deliveries }) => [
        gallery.id,
        ...new Set(deliveries.flatMap(behindDelivery)),
      ]),
    ),
    brought: {
      ...broughtByDeliveries(galleries),
      ...broughtByParts(galleries, {
        unpaid: ({ debts }) => debts.map(({ by, amount }) => [by, amount] as const),
      }),
    },
  };
}

/** What was sent and is there, by delivery; what was sold and is owed, by statement. */
export function broughtByDeliveries(
  rows: readonly { readonly deliveries: readonly DeliveryStanding[] }[],
): BroughtByColumn {
  type Of = (standing: DeliveryStanding) => Iterable<readonly [string, number | Money]>;
  const all = (of: Of) => (row: (typeof rows)[number]) =>
    row.deliveries.flatMap((each) => [...of(each)]);
  return broughtByParts(rows, {
    sent: all(({ delivery, sent }) => [[delivery.by, sent]]),
    sold: all(({ delivery }) => delivery.sold.map(({ sale, count }) => [sale.id, count])),
    value: all(({ delivery, value }) => [[delivery.by, value]]),
    takings: all(({ shares }) => shares.map(({ by, takings }) => [by, takings])),
    commission: all(({ shares }) => shares.map(({ by, commission }) => [by, commission])),
    owedForMissing: all(({ owing }) => owing),
  });
}

/** One gallery, delivery by delivery; undefined when there is no channel of kind consignment of that id. */
export function galleryHistory(book: Book, flows: Flows, id: string): Table | undefined {
  const { asOf } = flows.stock;
  const found = galleryStandings(book, flows).find(({ gallery }) => gallery.id === id);
  if (!found) return undefined;
  const { gallery, deliveries } = found;
  return {
    report: 'galleries',
    title: `Deliveries to ${gallery.name} up to ${asOf}`,
    ...tableHead(book, asOf),
    ...withRows(
      DELIVERY_COLUMNS,
      deliveries.map((each) => deliveryLine(book, each)),
    ),
    sums: GALLERY_SUMS,
    totals: cellsOf(ADDING_UP, standingTotal(deliveries)),
    notes: sentences(
      'What is sold, returned or missing is of the delivery made first, unless a lot or glaze is named.',
      ...deliveryNotes(book, [found]),
      paidText(book, id, asOf),
      owedText(book, found),
      paidForMissing(book, found),
    ),
    behind: once(() => deliveries.map(behindDelivery)),
    brought: broughtByDeliveries(deliveries.map((each) => ({ deliveries: [each] }))),
  };
}

function mostFirst(one: GalleryStanding, other: GalleryStanding): number {
  const more = Number(other.value - one.value);
  if (more !== 0) return more;
  return one.gallery.id < other.gallery.id ? -1 : 1;
}

function galleryLine({ gallery, ...standing }: GalleryStanding) {
  const { oldest: oldestDays, debts } = standing;
  return {
    ...standing,
    gallery: gallery.id,
    name: gallery.name,
    oldestDays,
    owedSince: debts[0]?.since,
  };
}

function deliveryLine(book: Book, standing: DeliveryStanding) {
  const { delivery, sold, takings } = standing;
  const { line, sentOn, by } = delivery;
  const price = sentPrice(book, delivery);
  return {
    ...standing,
    date: sentOn,
    record: by,
    product: line.product,
    glaze: line.glaze,
    grade: line.grade ?? 'first',
    lot: line.lot,
    price: price && booked(book, price),
    soldEach: perPiece(book, takings, sold),
    oldestDays: standing.oldest,
  };
}

/** The delivery, and what sold or missed pieces of it. */
export function behindDelivery({ delivery }: DeliveryStanding): string[] {
  const { by, sold, lines } = delivery;
  return [...new Set([by, ...sold.map(({ sale }) => sale.id), ...lines.map((each) => each.by)])];
}

/** What was paid, for the columns have only what is still owed. */
function paidForMissing(
  book: Book,
  { owedForMissing, paidForMissing: paid }: GalleryFigures,
): string | undefined {
  if (paid === NO_MONEY) return undefined;
  const [all = '', so = ''] = [add(owedForMissing, paid), paid].map((sum) =>
    amountText(sum, digitsOf(book)),
  );
  return `For missing pieces: ${all} in all, of which ${so} is paid and owed no more.`;
}

function paidText(book: Book, id: string, asOf: Day): string | undefined {
  const paid = paidStatements(book, id, asOf);
  if (!paid) return undefined;
  const amount = amountText(paid.amount, digitsOf(book));
  return `Paid to you: ${amount} for ${counted(paid.count, 'statement')}, the last on ${paid.last}.`;
}

/** What a gallery owes, bill by bill: `Owed to you: 169.80 since 2026-04-30 (s260430mz).` */
export function owedText(book: Book, { debts }: GalleryStanding): string {
  if (debts.length === 0) return 'Nothing is owed to you.';
  const digits = digitsOf(book);
  const each = debts.map(
    ({ amount, since, by }) => `${amountText(amount, digits)} since ${since} (${by})`,
  );
  const all =
    debts.length === 1 ? '' : `${amountText(total(debts.map(({ amount }) => amount)), digits)}: `;
  return `Owed to you: ${all}${each.join('; ')}.`;
}

/** What is to be said of prices, and of what came there without a delivery. */
export function deliveryNotes(book: Book, galleries: readonly GalleryStanding[]): string[] {
  const all = galleries.flatMap(({ deliveries }) => deliveries);
  const countedAt = ({ delivery: { by } }: DeliveryStanding) => book.counted.get(by)?.pieces ?? [];
  const isThere = (each: DeliveryStanding): boolean =>
    countedAt(each).some(
      (line) =>
        isOpening(line) && line.place !== undefined && line.product === each.delivery.line.product,
    );
  const counts = all.filter(({ delivery }) => book.counted.has(delivery.by));
  const piecesIn = (some: readonly DeliveryStanding[], of: 'here' | 'sent'): number =>
    some.reduce((sum, each) => sum + each[of], 0);
  const unpriced = piecesIn(
    all.filter(({ here, delivery }) => here > 0 && !delivery.line.price),
    'here',
  );
  const there = piecesIn(counts.filter(isThere), 'sent');
  const found = piecesIn(counts, 'sent') - there;
  return sentences(
    unpriced !== 0 && `${counted(unpriced, 'piece')} sent without a price: at the product's own.`,
    there !== 0 && `${counted(there, 'piece')} there when the book began: as if sent on that day.`,
    found !== 0 && `${counted(found, 'piece')} found there by a stocktake: as if sent on its day.`,
  );
}
