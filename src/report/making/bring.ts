/** What to bring to a fair: what sold there before, by the hour, what ran out, and the list to pack by. */
import type { Book, Fair } from '../../book.ts';
import { countIn, grouped } from '../../grouping.ts';
import { sentences } from '../../in-words.ts';
import { decimal, divide, roundTo, sum, type Decimal } from '../../number/decimal.ts';
import type { Flows } from '../../reckon/flows.ts';
import {
  fairsBefore,
  isWareMeant,
  keyOfWare,
  readyInStudio,
  soldAtFairs,
  type SoldBefore,
  type SoldAtFair,
} from '../../reckon/sales/fair-before.ts';
import { compareTexts } from '../../text-order.ts';
import { backed, sumsOf, tableHead, type BackedRow } from '../head.ts';
import type { Column, Table } from '../table.ts';

const BRING_COLUMNS: readonly Column[] = [
  { key: 'name', title: 'Name', type: 'text' },
  { key: 'product', title: 'Product', type: 'id', dataOnly: true },
  { key: 'glaze', title: 'Glaze', type: 'text' },
  { key: 'grade', title: 'Grade', type: 'text' },
  { key: 'sold', title: 'Sold', type: 'count' },
  { key: 'perHour', title: 'Per hour', type: 'quantity', places: 2 },
  { key: 'most', title: 'Most at one', type: 'count', drop: 1 },
  { key: 'ranOut', title: 'Ran out', type: 'text', drop: 2 },
  { key: 'ready', title: 'Ready', type: 'count' },
  { key: 'bring', title: 'Bring', type: 'count' },
  { key: 'take', title: 'On the list', type: 'count' },
];

/** What to bring to a fair, by product, glaze and grade. */
export function bringTable(book: Book, flows: Flows, fair: Fair): Table {
  const fairs = fairsBefore(book, flows, fair);
  const hours = hoursAhead(fair, fairs);
  const ready = readyInStudio(flows);
  const packed = packedWare(fair, soldAtFairs(book, flows, fairs));
  const rows = packed
    .map((each) => bringRow(book, each, { fair, fairs, hours, ready }))
    .sort((one, other) => compareTexts(orderOf(one), orderOf(other)));
  const cells = { columns: BRING_COLUMNS, ...backed(rows) };
  return {
    report: 'fairs',
    title: `What to bring to ${fair.name}, ${fair.date}`,
    ...tableHead(book, flows.stock.asOf),
    ...cells,
    partedBy: 'name',
    totals: {
      glaze: 'total',
      ...sumsOf(cells),
      ...{ most: null, ready: null, ...(fair.take ? {} : { take: null }) },
    },
    toTick: true,
    notes: bringNotes(fair, { fairs, hours, first: rows[0], isOpen: isOpenAt(flows, fairs) }),
  };
}

function orderOf({ row }: BackedRow): string {
  return [row['product'], row['glaze'], row['grade']].join('\n');
}

/** Ware with its place on the fair's list; undefined where it isn't on it. */
interface Packed {
  readonly ware: SoldBefore;
  readonly take: number | undefined;
}

/** What sold before, and what is on the list: a line of it that means one sort of that alone is counted there. */
function packedWare({ take = [] }: Fair, sold: readonly SoldBefore[]): Packed[] {
  const lines = take.map((line) => {
    const meant = sold.filter((ware) => isWareMeant(keyOfWare(ware), line));
    const { product, glaze = '', grade = 'first', count } = line;
    return { ware: meant.length === 1 ? meant[0] : { product, glaze, grade, at: [] }, count };
  });
  const own = grouped(lines, ({ ware }) => (ware ? keyOfWare(ware) : ''));
  const wares = [...sold, ...lines.flatMap(({ ware }) => ware ?? [])];
  const byKey = new Map(wares.toReversed().map((ware) => [keyOfWare(ware), ware]));
  return [...byKey].map(([key, ware]) => {
    const taken = own.get(key);
    return { ware, take: taken && countIn(taken) };
  });
}

/** The hours of the fair, or the mean of those before; undefined where none are known. */
function hoursAhead({ hours }: Fair, fairs: readonly Fair[]): Decimal | undefined {
  const known = fairs.flatMap((each) => each.hours ?? []);
  if (hours !== undefined || known.length === 0) return hours;
  return divide(sum(known), decimal(known.length));
}

interface BringAsked {
  readonly fair: Fair;
  readonly fairs: readonly Fair[];
  readonly hours: Decimal | undefined;
  readonly ready: ReadonlyMap<string, number>;
}

function bringRow(
  book: Book,
  { ware, take }: Packed,
  { fair, fairs, hours, ready }: BringAsked,
): BackedRow {
  const { product, glaze, grade, at } = ware;
  const definition = book.products.get(product);
  const there = readyOf(ware, ready);
  const bring = Math.max(0, ...at.map((each) => expected(each, hours)));
  const isOver = (definition?.discontinued ?? '9999') <= fair.date;
  const row = {
    product,
    name: definition?.name ?? product,
    glaze: at.length === 0 && glaze === '' ? 'any' : glaze,
    grade: grade === 'second' ? grade : null,
    sold: countIn(at),
    perHour: perHourOver(at, fairs),
    most: Math.max(0, ...at.map(({ count }) => count)),
    ranOut: at.flatMap(ranOutText).join('; '),
    ready: there,
    bring: isOver ? Math.min(bring, there) : bring,
    take,
  };
  return { row, behind: [product, fair.id, ...at.map((each) => each.fair.id)] };
}

/** Of ware that never sold there, all that the list may mean. */
function readyOf({ at, glaze, ...ware }: SoldBefore, ready: BringAsked['ready']): number {
  if (at.length > 0) return ready.get(keyOfWare({ ...ware, glaze })) ?? 0;
  const meant = { ...ware, glaze: glaze === '' ? undefined : glaze };
  const counts = [...ready].filter(([key]) => isWareMeant(key, meant));
  return countIn(counts.map(([, count]) => ({ count })));
}

/** Sold ÷ hours of all those fairs of which the hours are known; null for none. */
function perHourOver(at: readonly SoldAtFair[], fairs: readonly Fair[]): Decimal | null {
  const hours = sum(fairs.flatMap((each) => each.hours ?? []));
  const timed = at.filter(({ fair }) => fair.hours !== undefined);
  if (hours.isZero()) return null;
  return roundTo(divide(decimal(countIn(timed)), hours), HOURLY_PLACES);
}

const HOURLY_PLACES = 4;

/** As many as would go at the pace of that fair, to the whole piece; one at the least of what sold. */
function expected({ fair, count }: SoldAtFair, hours: Decimal | undefined): number {
  if (hours === undefined || fair.hours === undefined || fair.hours.isZero()) return count;
  const pieces = divide(decimal(count).times(hours), fair.hours).toNumber();
  return Math.max(Math.sign(count), Math.round(pieces));
}

/** `2025-09-21 (line 18 of 22)`. */
function ranOutText({ ranOut }: SoldAtFair): string[] {
  return ranOut ? [`${ranOut.day} (line ${ranOut.line} of ${ranOut.of})`] : [];
}

interface BringGrounds extends Pick<BringAsked, 'fairs' | 'hours'> {
  readonly first: BackedRow | undefined;
  readonly isOpen: boolean;
}

function bringNotes({ id, hours: stated, take }: Fair, grounds: BringGrounds): string[] {
  const { fairs, hours, first, isOpen } = grounds;
  if (fairs.length === 0) return sentences('No earlier fair through its channel is on record.');
  const named = fairs.map((each) => each.id).join(', ');
  const length = hours && `${hours.toFixed(1)} hours${stated ? '' : ', the mean of those'}`;
  return sentences(
    `Sold at the last fairs through its channel: ${named}.`,
    length === undefined
      ? 'Bring: the most that went at one of them; no hours are on record.'
      : `Bring: the most that went in an hour at one of them, over ${length}. Where it ran out, more may go.`,
    'Ran out: all that was on its list went; without a list, none was left in the studio. By the line of the last one.',
    isOpen && 'Where a sale names no glaze, it counts as the one that was finished first.',
    take === undefined && first && `No list yet of what you take. Begin it: ${listText(id, first)}`,
  );
}

/** Whether a line of those days named no glaze where there were several. */
function isOpenAt({ ware }: Flows, fairs: readonly Fair[]): boolean {
  return ware.openGlazes.some(({ day }) =>
    fairs.some(({ date, last = date }) => date <= day && day <= last),
  );
}

/** `saggar amend k260919pn "take.1=24 mug oatmeal"`; of several glazes the first says which it is. */
function listText(id: string, { row }: BackedRow): string {
  const glaze = String(row['glaze']).split(' + ')[0] ?? '';
  const words = [row['bring'], row['product'], glaze, row['grade']].map((word) => word ?? '');
  return `saggar amend ${id} "take.1=${words.filter((word) => word !== '').join(' ')}"`;
}
