/** What became of each delivery to a gallery: sold, fetched back, missing, broken, or still there. */
import type { Consigned, Counted, Day, Grade, MissingLine, Sale } from '../../book.ts';
import { addTo, countIn } from '../../grouping.ts';
import {
  atGalleries,
  goneFromGalleries,
  type GalleryBook,
  type GoneThere,
  type Wanted,
} from './gone-there.ts';
import { isOpening, openings, type Opening } from '../stock/opening.ts';
import { byTurn, happeningsOf, type Happening } from '../timeline.ts';

/** Pieces of one line of a delivery, or pieces that a stocktake found at the gallery. */
export interface Delivery {
  readonly channel: string;
  /** Id of the record that brought them there. */
  readonly by: string;
  readonly sentOn: Day;
  readonly line: DeliveredLine;
  /** How many are still there, and how many went which way. */
  left: number;
  readonly sold: SoldThere[];
  back: number;
  missing: number;
  broken: number;
  /** Taken off by a stocktake that found fewer. */
  uncounted: number;
  /** Shares of the missing lines: which line, and how many of its pieces are of this delivery. */
  readonly lines: MissingThere[];
}

/** What was delivered; a price is of one piece. */
type DeliveredLine = NonNullable<Consigned['sent']>[number];

/** Which part of a line is of one delivery: the counts of all its parts, and which of them it is. */
interface PartOfLine {
  readonly counts: readonly number[];
  readonly at: number;
}

/** Pieces of a delivery that one line of a statement sold. */
export interface SoldThere extends PartOfLine {
  readonly sale: Sale;
  readonly index: number;
  /** How many of them were not brought back. */
  readonly count: number;
}

/** Pieces of a delivery that one line of a consignment misses. */
interface MissingThere extends PartOfLine {
  /** Id of the consignment. */
  readonly by: string;
  readonly line: MissingLine;
}

/** All deliveries up to a day, in the order in which they were made. */
interface Deliveries {
  readonly all: readonly Delivery[];
  /** Sale id → the statement of a gallery, with the deliveries that its pieces are from. */
  readonly sold: ReadonlyMap<string, SoldStatement>;
}

/** A gallery's statement, and by its lines the deliveries that the pieces are from. */
export interface SoldStatement {
  readonly sale: Sale;
  readonly taken: readonly (readonly TakenThere[])[];
}

/** Pieces taken from one delivery. */
export interface TakenThere {
  readonly delivery: Delivery;
  readonly count: number;
}

/**
 * Follows every piece from its delivery on: what is sold, comes back or is missing is of the delivery
 * made first, among those that fit the line's product, grade, lot and glaze. Pieces that the gallery
 * never had by the book are left out; `consigned-overdrawn` says so.
 */
export function deliveries(book: GalleryBook, asOf: Day): Deliveries {
  const ledger: Ledger = { all: [], standing: new Map(), sold: new Map() };
  const happenings: GalleryHappening[] = [
    ...happeningsOf(atGalleries(book), { to: asOf }, ['consigned', 'sales', 'counted']),
    ...goneFromGalleries(book, asOf),
    ...openings(book, { to: asOf }),
  ];
  for (const happening of happenings.sort(byTurn)) enter(ledger, happening);
  return ledger;
}

interface Ledger {
  readonly all: Delivery[];
  /** Gallery and product → deliveries of which something may be left. */
  readonly standing: Map<string, Delivery[]>;
  readonly sold: Map<string, SoldStatement>;
}

type GalleryHappening = Happening<'consigned' | 'sales' | 'counted'> | GoneThere | Opening;

function enter(ledger: Ledger, happening: GalleryHappening): void {
  switch (happening.kind) {
    case 'consigned':
      enterConsigned(ledger, happening.record);
      return;
    case 'gone':
      for (const { delivery, count } of takeThere(ledger, happening.wanted))
        delivery.broken += count;
      return;
    case 'opening':
      enterOpening(ledger, happening.record);
      return;
    case 'sales':
      enterSale(ledger, happening.record);
      return;
    case 'counted':
      enterCount(ledger, happening.record);
      return;
  }
}

function enterConsigned(ledger: Ledger, consigned: Consigned): void {
  const { channel, id, date, sent = [], back = [], missing = [] } = consigned;
  for (const line of sent) bring(ledger, newDelivery({ channel, by: id, sentOn: date, line }));
  for (const line of back)
    for (const { delivery, count } of takeThere(ledger, { grade: 'first', ...line, channel }))
      delivery.back += count;
  for (const line of missing) enterMissing(ledger, consigned, line);
}

function enterMissing(ledger: Ledger, { id: by, channel }: Consigned, line: MissingLine): void {
  const taken = takeThere(ledger, { grade: 'first', ...line, channel });
  const counts = partsTaken(taken, line.count);
  taken.forEach(({ delivery, count }, at) => {
    delivery.missing += count;
    delivery.lines.push({ by, line, counts, at });
  });
}

/** The counts of what was taken, and of what the gallery never had by the book. */
function partsTaken(taken: readonly TakenThere[], count: number): number[] {
  return [...taken.map((each) => each.count), count - countIn(taken)];
}

function bring({ all, standing }: Ledger, delivery: Delivery): void {
  all.push(delivery);
  addTo(standing, `${delivery.channel} ${delivery.line.product}`, delivery);
}

function newDelivery(brought: Pick<Delivery, 'channel' | 'by' | 'sentOn' | 'line'>): Delivery {
  const gone = { back: 0, missing: 0, broken: 0, uncounted: 0 };
  return { ...brought, ...gone, left: brought.line.count, sold: [], lines: [] };
}

function enterSale(ledger: Ledger, sale: Sale): void {
  const taken = sale.lines.map((_, index) => enterSaleLine(ledger, sale, index));
  ledger.sold.set(sale.id, { sale, taken });
}

function enterSaleLine(ledger: Ledger, sale: Sale, index: number): readonly TakenThere[] {
  const { channel } = sale;
  const line = sale.lines[index];
  if (line?.product === undefined) return [];
  const { product, lot, glaze, grade = 'first', count } = line;
  const wanted = { channel, product, lot, glaze, grade, count };
  if (line.returned === 'yes') {
    giveBack(ledger, sale, wanted);
    return [];
  }
  const taken = takeThere(ledger, wanted);
  const counts = partsTaken(taken, count);
  taken.forEach((each, at) => {
    each.delivery.sold.push({ sale, index, counts, at, count: each.count });
  });
  return taken;
}

/**
 * What a buyer brought back stands at the gallery again, as of the delivery that was sold from last;
 * what the gallery never sold by the book is a delivery of its own.
 */
function giveBack(ledger: Ledger, { id, date }: Sale, wanted: Wanted): void {
  const { channel, product } = wanted;
  let { count } = wanted;
  for (const delivery of ledger.all.filter((each) => fits(each, wanted)).reverse())
    count -= takeBackSold(delivery, count);
  standAgain(ledger, channel, product);
  if (count === 0) return;
  const line = deliveredLine(wanted, count);
  bring(ledger, newDelivery({ channel, by: id, sentOn: date, line }));
}

/** The line that so many pieces would have been delivered with. */
function deliveredLine(wanted: Wanted, count: number): DeliveredLine {
  const { product, lot, glaze, grade = 'first' } = wanted;
  return { product, grade, count, ...(lot && { lot }), ...(glaze && { glaze }) };
}

function isOf({ channel, line }: Delivery, wanted: Pick<Wanted, 'channel' | 'product'>): boolean {
  return channel === wanted.channel && line.product === wanted.product;
}

function takeBackSold(delivery: Delivery, wanted: number): number {
  let rest = wanted;
  for (let last = delivery.sold.pop(); last !== undefined; last = delivery.sold.pop()) {
    const returned = Math.min(rest, last.count);
    rest -= returned;
    delivery.left += returned;
    if (returned === last.count) continue;
    delivery.sold.push({ ...last, count: last.count - returned });
    break;
  }
  return wanted - rest;
}

function enterCount(ledger: Ledger, counted: Counted): void {
  for (const { product, glaze, grade, place, count, cost } of counted.pieces ?? [])
    if (place !== undefined && cost === undefined)
      countTo(ledger, counted, { channel: place, product, glaze, grade, count });
}

/** What is there when the book begins: of earlier deliveries as far as they have it, else as if sent then. */
function enterOpening(ledger: Ledger, { id, date, pieces = [] }: Counted): void {
  const lines = pieces.filter((line) => isOpening(line) && line.place !== undefined);
  const told = lines.map(({ place: channel = '', grade = 'first', ...counted }) => {
    const wanted = { ...counted, channel, grade };
    const taken = takeThere(ledger, wanted);
    const line = deliveredLine(wanted, wanted.count - countIn(taken));
    return { taken, brought: newDelivery({ channel, by: id, sentOn: date, line }) };
  });
  for (const { place: channel = '', product } of lines)
    for (const delivery of thereFor(ledger, { channel, product, count: 0 })) {
      delivery.uncounted += delivery.left;
      delivery.left = 0;
    }
  for (const { taken } of told) for (const { delivery, count } of taken) delivery.left += count;
  for (const { place = '', product } of lines) standAgain(ledger, place, product);
  for (const { brought } of told) if (brought.line.count > 0) bring(ledger, brought);
}

/** After pieces came back to deliveries that had none left. */
function standAgain({ all, standing }: Ledger, channel: string, product: string): void {
  const isThere = (each: Delivery): boolean => each.left > 0 && isOf(each, { channel, product });
  standing.set(`${channel} ${product}`, all.filter(isThere));
}

function countTo(ledger: Ledger, { id, date }: Counted, wanted: Wanted): void {
  const { channel, count } = wanted;
  const there = thereFor(ledger, wanted);
  const more = count - there.reduce((sum, { left }) => sum + left, 0);
  if (more > 0) {
    const line = deliveredLine(wanted, more);
    bring(ledger, newDelivery({ channel, by: id, sentOn: date, line }));
  }
  for (const taken of takeThere(ledger, { ...wanted, count: Math.max(0, -more) }))
    taken.delivery.uncounted += taken.count;
}

function takeThere(ledger: Ledger, wanted: Wanted): TakenThere[] {
  const grades: readonly Grade[] = wanted.grade ? [wanted.grade] : ['first', 'second'];
  const turns = grades.flatMap((grade) => inTurn(ledger, { ...wanted, grade }));
  let rest = wanted.count;
  return turns.flatMap((delivery) => {
    const count = Math.min(rest, delivery.left);
    delivery.left -= count;
    rest -= count;
    return count > 0 ? [{ delivery, count }] : [];
  });
}

/** The deliveries that fit, those that name the wanted lot or glaze before those that leave it open. */
function inTurn(ledger: Ledger, wanted: Wanted): Delivery[] {
  const fitting = thereFor(ledger, wanted);
  const { lot, glaze } = wanted;
  if (lot === undefined && glaze === undefined) return fitting;
  const isNamed = ({ line }: Delivery): boolean =>
    (lot === undefined || line.lot === lot) && (glaze === undefined || line.glaze === glaze);
  return [...fitting.filter(isNamed), ...fitting.filter((each) => !isNamed(each))];
}

function thereFor({ standing }: Ledger, wanted: Wanted): Delivery[] {
  const key = `${wanted.channel} ${wanted.product}`;
  // What is all gone is looked at no more, so that many years of deliveries stay quick.
  const left = (standing.get(key) ?? []).filter((each) => each.left > 0);
  standing.set(key, left);
  return left.filter((each) => fits(each, wanted));
}

function fits({ channel, line }: Delivery, wanted: Wanted): boolean {
  const { grade = 'first', product, lot, glaze } = line;
  if (channel !== wanted.channel || product !== wanted.product) return false;
  return grade === (wanted.grade ?? grade) && mayBe(lot, wanted.lot) && mayBe(glaze, wanted.glaze);
}

function mayBe(one: string | undefined, other: string | undefined): boolean {
  return one === undefined || other === undefined || one === other;
}
