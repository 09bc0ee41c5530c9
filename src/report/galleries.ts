/** Goods on consignment: what each gallery has, has sold and owes, and one gallery delivery by delivery. */
import { counted } from '../in-words.ts';
import { once } from '../once.ts';
import type { Book } from '../book.ts';
import { NO_MONEY, add, total } from '../number/money.ts';
import { booked, digitsOf } from '../reckon/booked.ts';
import type { Flows } from '../reckon/flow.ts';
import {
  galleryStandings,
  sentPrice,
  standingTotal,
  type DeliveryStanding,
  type GalleryStanding,
  type Standing,
} from '../reckon/gallery.ts';
import { isOpening } from '../reckon/opening.ts';
import { amountText } from './day-words.ts';
import { moneyColumn, perPiece, rateColumn, tableHead, textColumn } from './head.ts';
import type { Column, Row, Table } from './table.ts';

const COUNTS: readonly Column[] = [
  { key: 'sent', title: 'Sent', type: 'count' },
  { key: 'sold', title: 'Sold', type: 'count' },
  { key: 'back', title: 'Back', type: 'count' },
  { key: 'missing', title: 'Missing', type: 'count' },
  { key: 'broken', title: 'Broken', type: 'count', drop: 2 },
  { key: 'here', title: 'There', type: 'count' },
];

const COLUMNS: readonly Column[] = [
  { key: 'gallery', title: 'Gallery', type: 'id' },
  textColumn('name', 'Name', { drop: 5 }),
  ...COUNTS,
  moneyColumn('value', 'Value'),
  { key: 'oldestDays', title: 'Days', type: 'count' },
  moneyColumn('takings', 'Takings', { drop: 4 }),
  moneyColumn('commission', 'Kept', { drop: 3 }),
  moneyColumn('unpaid', 'Unpaid'),
  moneyColumn('owedForMissing', 'For missing', { drop: 1 }),
];

/** What a narrow terminal does without, the highest first. */
const DROPS: Readonly<Record<string, number>> = { broken: 8, back: 4, missing: 1 };

const DETAIL: readonly Column[] = [
  { key: 'date', title: 'Sent on', type: 'date' },
  { key: 'record', title: 'Record', type: 'id', drop: 9 },
  { key: 'product', title: 'Product', type: 'id' },
  textColumn('glaze', 'Glaze', { drop: 5 }),
  textColumn('grade', 'Grade', { drop: 10 }),
  { key: 'lot', title: 'Lot', type: 'id', drop: 11 },
  moneyColumn('price', 'Price'),
  ...COUNTS.map((column): Column => {
    const drop = DROPS[column.key];
    return drop === undefined ? column : { ...column, drop };
  }),
  rateColumn('soldEach', 'Sold at', { drop: 2 }),
  moneyColumn('takings', 'Takings', { drop: 12 }),
  moneyColumn('commission', 'Kept', { drop: 3 }),
  moneyColumn('owedForMissing', 'For missing', { drop: 6 }),
  moneyColumn('value', 'Value', { drop: 7 }),
  { key: 'oldestDays', title: 'Days', type: 'count' },
];

/** Every gallery, those with the most value there first. */
export function galleriesTable(book: Book, flows: Flows): Table {
  const { asOf } = flows.stock;
  const galleries = galleryStandings(book, flows).sort(mostFirst);
  const unpaid = total(galleries.map((each) => each.unpaid));
  const whole = standingTotal(galleries);
  return {
    report: 'galleries',
    title: `Goods on consignment on ${asOf}`,
    ...tableHead(book, asOf),
    columns: COLUMNS,
    rows: galleries.map((each) => ({
      gallery: each.gallery.id,
      name: each.gallery.name,
      ...standingRow(each),
      unpaid: each.unpaid,
    })),
    totals: { gallery: 'total', ...standingCells(whole), unpaid },
    notes: [
      'Goods stay yours until the gallery sells them. Days: how long the oldest piece has been there.',
      ...notesOn(book, galleries),
      ...(whole.owedForMissing === NO_MONEY
        ? []
        : ['Unpaid has in it what is owed for missing pieces.']),
      ...paidForMissing(book, whole),
    ],
    behind: once(() => galleries.map(behindGallery)),
  };
}

/** One gallery, delivery by delivery; undefined when there is no channel of kind consignment of that id. */
export function galleryTable(book: Book, flows: Flows, id: string): Table | undefined {
  const { asOf } = flows.stock;
  const found = galleryStandings(book, flows).find(({ gallery }) => gallery.id === id);
  if (!found) return undefined;
  return {
    report: 'galleries',
    title: `Goods at ${found.gallery.name} on ${asOf}`,
    ...tableHead(book, asOf),
    columns: DETAIL,
    rows: found.deliveries.map((each) => deliveryRow(book, each)),
    totals: standingCells(standingTotal(found.deliveries)),
    notes: [
      'What is sold, back or missing is of the delivery made first, unless a lot or glaze is named.',
      ...notesOn(book, [found]),
      ...paidForMissing(book, found),
    ],
    behind: once(() => found.deliveries.map(behindDelivery)),
  };
}

function mostFirst(one: GalleryStanding, other: GalleryStanding): number {
  const more = Number(other.value - one.value);
  if (more !== 0) return more;
  return one.gallery.id < other.gallery.id ? -1 : 1;
}

function standingRow(standing: Standing): Row {
  return { ...standingCells(standing), oldestDays: standing.oldest ?? null };
}

/** What adds up. */
function standingCells(standing: Standing): Row {
  const { sent, sold, back, missing, broken, here } = standing;
  const { value, takings, commission, owedForMissing } = standing;
  return {
    ...{ sent, sold, back, missing, broken, here },
    ...{ value, takings, commission, owedForMissing },
  };
}

function deliveryRow(book: Book, standing: DeliveryStanding): Row {
  const { delivery, sold, takings } = standing;
  const { line, sentOn, by } = delivery;
  const price = sentPrice(book, delivery);
  return {
    date: sentOn,
    record: by,
    product: line.product,
    glaze: line.glaze ?? null,
    grade: line.grade ?? 'first',
    lot: line.lot ?? null,
    price: price ? booked(book, price) : null,
    soldEach: perPiece(book, takings, sold),
    ...standingRow(standing),
  };
}

function behindGallery({ gallery, deliveries }: GalleryStanding): string[] {
  return [gallery.id, ...new Set(deliveries.flatMap(behindDelivery))];
}

function behindDelivery({ delivery }: DeliveryStanding): string[] {
  const { by, sold, lines } = delivery;
  return [...new Set([by, ...sold.map(({ sale }) => sale.id), ...lines.map((each) => each.by)])];
}

/** What was paid, for the columns have only what is still owed. */
function paidForMissing(book: Book, { owedForMissing, paidForMissing: paid }: Standing): string[] {
  if (paid === NO_MONEY) return [];
  const [all, so] = [add(owedForMissing, paid), paid].map((sum) => amountText(sum, digitsOf(book)));
  return [
    `For missing pieces: ${all ?? ''} in all, of which ${so ?? ''} is paid and owed no more.`,
  ];
}

function notesOn(book: Book, galleries: readonly GalleryStanding[]): string[] {
  const all = galleries.flatMap(({ deliveries }) => deliveries);
  const unpriced = all.filter(({ here, delivery }) => here > 0 && !delivery.line.price);
  const unpricedPieces = unpriced.reduce((all, { here }) => all + here, 0);
  const counts = all.filter(({ delivery }) => book.counted.has(delivery.by));
  const isThere = ({ delivery: { by, line } }: (typeof all)[number]): boolean =>
    (book.counted.get(by)?.pieces ?? []).some(
      (each) => isOpening(each) && each.place !== undefined && each.product === line.product,
    );
  const there = counts.filter(isThere);
  const found = counts.filter((each) => !isThere(each));
  const therePieces = there.reduce((all, { sent }) => all + sent, 0);
  const foundPieces = found.reduce((all, { sent }) => all + sent, 0);
  return [
    ...(unpricedPieces === 0
      ? []
      : [`${counted(unpricedPieces, 'piece')} sent without a price: at the product's own.`]),
    ...(therePieces === 0
      ? []
      : [`${counted(therePieces, 'piece')} there when the book began: as if sent on that day.`]),
    ...(foundPieces === 0
      ? []
      : [`${counted(foundPieces, 'piece')} found there by a stocktake: as if sent on its day.`]),
  ];
}
