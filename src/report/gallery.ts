/** One gallery as it is now: what is still there, what that would bring, and what the gallery owes. */
import type { Book } from '../book.ts';
import { grouped } from '../grouping.ts';
import { bookOn } from '../in-force.ts';
import { sentences } from '../in-words.ts';
import { NO_MONEY, times } from '../number/money.ts';
import { once } from '../once.ts';
import { booked } from '../reckon/booked.ts';
import { soldAlone } from '../reckon/costs/kind-price.ts';
import type { Flows } from '../reckon/flows.ts';
import {
  galleryStandings,
  sentPrice,
  standingTotal,
  type DeliveryStanding,
  type GalleryStanding,
} from '../reckon/ware/gallery.ts';
import { compareTexts } from '../text-order.ts';
import { behindDelivery, deliveryNotes, owedText } from './galleries.ts';
import { broughtByParts } from './brought.ts';
import { sumsOf, tableHead, withRows } from './head.ts';
import { galleryVerdict } from './record-verdicts.ts';
import type { ColumnOf, Table } from './table.ts';

const SHELF_COLUMNS: readonly ColumnOf<ReturnType<typeof shelfLine>>[] = [
  { key: 'product', title: 'Product', type: 'id' },
  { key: 'name', title: 'Name', type: 'text', drop: 2, isName: true },
  { key: 'glaze', title: 'Glaze', type: 'text' },
  { key: 'grade', title: 'Grade', type: 'text' },
  { key: 'here', title: 'Still there', type: 'count' },
  { key: 'price', title: 'Price', type: 'money' },
  { key: 'value', title: 'Value', type: 'money' },
  { key: 'commission', title: 'Commission', type: 'money' },
  { key: 'yours', title: 'Your share', type: 'money' },
  { key: 'oldestDays', title: 'Days', type: 'count', drop: 1 },
];

/** What a gallery has now; undefined when there is no channel of kind consignment of that id. */
export function galleryTable(book: Book, flows: Flows, id: string): Table | undefined {
  const { asOf } = flows.stock;
  const found = galleryStandings(book, flows).find(({ gallery }) => gallery.id === id);
  if (!found) return undefined;
  const there = found.deliveries.filter(({ here }) => here > 0);
  const alike = [...grouped(there, (each) => keyOf(book, flows, each)).values()];
  const today = bookOn(book, asOf);
  const lines = alike
    .map((deliveries) => shelfLine(today, flows, { deliveries, standing: found }))
    .sort(byProduct);
  const cells = withRows(SHELF_COLUMNS, lines);
  const totals = sumsOf(cells);
  return {
    report: 'galleries',
    title: `Still at ${found.gallery.name} on ${asOf}`,
    ...tableHead(book, asOf),
    ...cells,
    totals: { ...totals, price: null, oldestDays: standingTotal(there).oldest ?? null },
    verdict: galleryVerdict(book, found, totals),
    notes: sentences(
      found.debts.length > 1 && owedText(book, found),
      lines.length > 0 &&
        'Commission and your share are of pieces sold one by one at that price, by the terms of today. Days: how long the oldest piece has been there.',
      ...deliveryNotes(book, [{ ...found, deliveries: there }]),
      `What came, was sold, returned and paid: saggar galleries ${id} --history.`,
    ),
    behind: once(() => lines.map(({ deliveries }) => deliveries.flatMap(behindDelivery))),
    brought: broughtByParts(lines, {
      here: (line) => line.deliveries.map(({ delivery, here }) => [delivery.by, here] as const),
      value: (line) => line.deliveries.map(({ delivery, value }) => [delivery.by, value] as const),
    }),
  };
}

function keyOf(book: Book, flows: Flows, { delivery }: DeliveryStanding): string {
  const { product, grade = 'first' } = delivery.line;
  const price = String(sentPrice(book, delivery));
  return [product, glazeOf(flows, delivery), grade, price].join('\n');
}

/** The glaze that the line names, else that of its lot. */
function glazeOf({ ware }: Flows, { line }: DeliveryStanding['delivery']): string {
  return line.glaze ?? ware.lots.get(line.lot ?? '')?.glaze ?? '';
}

/** Pieces that are alike, delivery by delivery. */
interface Alike {
  readonly deliveries: readonly DeliveryStanding[];
  readonly standing: GalleryStanding;
}

function shelfLine(book: Book, flows: Flows, { deliveries, standing }: Alike) {
  const { here, value, oldest } = standingTotal(deliveries);
  const [first] = deliveries;
  const product = first?.delivery.line.product ?? '';
  const sent = first && sentPrice(book, first.delivery);
  const price = sent && booked(book, sent);
  const { left, kept } = soldAlone(book, standing.gallery, price ?? NO_MONEY);
  return {
    deliveries,
    product,
    name: book.products.get(product)?.name ?? product,
    glaze: first ? glazeOf(flows, first.delivery) : '',
    grade: first?.delivery.line.grade ?? 'first',
    here,
    price,
    value,
    commission: times(kept, here),
    yours: times(left, here),
    oldestDays: oldest,
  };
}

function byProduct(one: ReturnType<typeof shelfLine>, other: ReturnType<typeof shelfLine>): number {
  const keyOfLine = ({ product, glaze, grade, price }: typeof one): string =>
    [product, glaze, grade, price ?? ''].join('\n');
  return compareTexts(keyOfLine(one), keyOfLine(other));
}
