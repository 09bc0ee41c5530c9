/** A trace as a table: what is in it, what it went into, where the pieces are, and who has them. */
import type { Book } from '../book.ts';
import { stageName } from '../check/shortage-words.ts';
import { inForce } from '../in-force.ts';
import { counted, sentences } from '../in-words.ts';
import type { TracePart } from '../groups.ts';
import type { Flows } from '../reckon/flows.ts';
import type { MoveWay } from '../reckon/tracing/moves.ts';
import type { TraceStart } from '../reckon/tracing/start.ts';
import {
  sumOfBounds,
  traced,
  type LeftBounds,
  type StandingBounds,
  type Trace,
  type TracedLot,
  type TracedSupply,
  type TracedUse,
} from '../reckon/tracing/trace.ts';
import type { Bounds } from '../reckon/tracing/whereabouts.ts';
import { firingsOf } from '../reckon/ware/stages.ts';
import { backed, tableHead, cellsOf, type BackedRow } from './head.ts';
import type { ColumnOf, Table } from './table.ts';

/** One line of a trace. */
interface TraceLine {
  readonly part: string;
  readonly kind: string;
  readonly record: string;
  readonly depth: number;
  readonly date?: string;
  readonly what: string;
  readonly lots?: string;
  /** As people read it: the place, and the buyer where one is on record. */
  readonly where?: string;
  readonly place?: string;
  readonly buyer?: string;
  readonly link: string;
  readonly least?: number;
  readonly most?: number;
}

const TRACE_COLUMNS: readonly ColumnOf<Required<TraceLine>>[] = [
  { key: 'part', title: 'Part', type: 'text' },
  { key: 'kind', title: 'Kind', type: 'text', dataOnly: true },
  { key: 'record', title: 'Record', type: 'id' },
  { key: 'depth', title: 'Depth', type: 'count', dataOnly: true },
  { key: 'date', title: 'Date', type: 'date' },
  { key: 'what', title: 'What', type: 'text', stepsFrom: 'depth' },
  { key: 'lots', title: 'Lots', type: 'text', dataOnly: true },
  { key: 'where', title: 'Where', type: 'text' },
  { key: 'place', title: 'Place', type: 'text', dataOnly: true },
  { key: 'buyer', title: 'Buyer', type: 'text', dataOnly: true },
  { key: 'link', title: 'Link', type: 'text', dataOnly: true },
  { key: 'least', title: 'Recorded', type: 'count' },
  { key: 'most', title: 'Possible', type: 'count' },
];

const PARTS = {
  sources: 'What is in it',
  into: 'What it went into',
  lots: 'Lots with it',
  otherwise: 'Used otherwise',
  standing: 'Still in the studio',
  galleries: 'At galleries',
  sold: 'Sold',
  gone: 'Gone without a sale',
} as const;

/** Everything that a trace finds, or one part of it. */
export function traceTable(
  book: Book,
  flows: Flows,
  { origin, only }: { origin: TraceStart; only?: TracePart | undefined },
): Table {
  const found = traced(book, flows, origin);
  const rows = traceLines(book, found).filter(
    ({ part }) => only === undefined || part === SHOWN[only],
  );
  const lines = rows.map((line): BackedRow => ({
    row: cellsOf(TRACE_COLUMNS, line),
    behind: [line.record, ...(line.lots?.split(' ') ?? [])].filter((id) => id !== ''),
  }));
  return {
    report: 'trace',
    title: `What happened to ${origin.title}`,
    ...tableHead(book, flows.stock.asOf),
    columns: TRACE_COLUMNS,
    ...backed(lines),
    partedBy: 'part',
    toTick: true,
    notes: traceNotes(book, found),
  };
}

const SHOWN: Readonly<Record<TracePart, string>> = {
  sold: PARTS.sold,
  standing: PARTS.standing,
  galleries: PARTS.galleries,
};

function traceLines(book: Book, found: Trace): TraceLine[] {
  const left = found.left.map((each) => leftLine(book, each));
  const standing = found.standing.map((each) => standingLine(book, each));
  return [
    ...found.sources.map((each) => supplyLine(book, each, PARTS.sources)),
    ...found.firings.map(({ id, kind, cone, kiln, date }) => ({
      part: PARTS.sources,
      kind: 'firing',
      record: id,
      depth: 1,
      what: [`${kind} firing`, ...(cone === undefined ? [] : [`cone ${cone}`])].join(', '),
      where: kiln,
      date,
      place: kiln,
      link: 'recorded',
    })),
    ...found.supplies.map((each) => supplyLine(book, each, PARTS.into)),
    ...found.uses.map((each) => useLine(book, each)),
    ...found.lots.map(lotLine),
    ...standing,
    ...left.filter(({ part }) => part === PARTS.sold),
    ...left.filter(({ part }) => part === PARTS.gone),
  ].sort((a, b) => PARTS_IN_ORDER.indexOf(a.part) - PARTS_IN_ORDER.indexOf(b.part));
}

const PARTS_IN_ORDER: readonly string[] = Object.values(PARTS);

function supplyLine(
  book: Book,
  { supply, certainty, depth }: TracedSupply,
  part: string,
): TraceLine {
  const { by, kind, pool, day, names } = supply;
  const { supplier } = book.bought.get(by) ?? {};
  const number = kind === 'bag' && names.length > 1 ? `bag ${names[0]}` : undefined;
  const words = [pool, number, supply.quantity?.text].filter((each) => each !== undefined);
  const what = `${SUPPLY_WORDS[kind]}${words.join(', ')} (${certainty})`;
  return { part, kind, record: by, depth, what, date: day, where: supplier ?? '', link: certainty };
}

const SUPPLY_WORDS: Readonly<Record<TracedSupply['supply']['kind'], string>> = {
  bag: '',
  mix: 'mix of ',
  reclaimed: 'reclaimed ',
  opening: 'there at the start: ',
};

function useLine(book: Book, { use, certainty }: TracedUse): TraceLine {
  const firing = book.firings.get(use.by);
  const purpose = book.used.get(use.by)?.for ?? 'studio';
  return {
    part: PARTS.otherwise,
    kind: firing ? 'firing' : 'use',
    record: use.by,
    depth: 0,
    what: `${firing ? `${use.pool} in a ${firing.kind} firing` : `${use.pool} used for ${purpose}`} (${certainty})`,
    date: use.to,
    link: certainty,
  };
}

function lotLine({ lot, glaze, least, most }: TracedLot): TraceLine {
  const { id, product, made, mark, title } = lot;
  const marked = mark === undefined ? undefined : `mark ${mark}`;
  const words = [title ?? product, glaze, `${made} made`, marked];
  return {
    part: PARTS.lots,
    kind: 'lot',
    record: id,
    depth: 0,
    what: words.filter((each) => each !== undefined && each !== '').join(', '),
    lots: id,
    date: lot.date,
    link: linkIn({ least, most }),
    least,
    most,
  };
}

/** Recorded where a record says it of all that it may be. */
function linkIn({ least, most }: Bounds): string {
  return least === most ? 'recorded' : 'possible';
}

function standingLine(book: Book, each: StandingBounds): TraceLine {
  const { product, glaze, place, lots, least, most, inKiln } = each;
  const [only = '', ...others] = lots;
  const isAway = place !== '';
  const there = isAway ? (book.channels.get(place)?.name ?? place) : (inKiln ?? 'studio');
  return {
    part: isAway ? PARTS.galleries : PARTS.standing,
    kind: 'ware',
    record: others.length === 0 ? only : '',
    depth: 0,
    what: [product, glaze, stageWords(book, each)].filter((word) => word !== '').join(', '),
    lots: lots.join(' '),
    where: there,
    place: there,
    link: linkIn({ least, most }),
    least,
    most,
  };
}

function stageWords(book: Book, { stage, inKiln, product, lots }: StandingBounds): string {
  if (inKiln !== undefined) return 'in the kiln';
  if (stage === undefined) return '';
  const day = book.pieces.get(lots[0] ?? '')?.date ?? '';
  return stageName(firingsOf(inForce(book.products.get(product), day)), stage);
}

function leftLine(book: Book, { move, least, most }: LeftBounds): TraceLine {
  const { id, day, way, product, glaze = '', lot } = move;
  const sale = book.sales.get(id);
  const channel = sale && (book.channels.get(sale.channel)?.name ?? sale.channel);
  const thing = [product, glaze, lot].filter((word) => word !== undefined && word !== '');
  const word = WAY_WORDS[way];
  const place = channel ?? (move.from === '' ? 'studio' : (move.from ?? ''));
  return {
    part: sale ? PARTS.sold : PARTS.gone,
    kind: way,
    record: id,
    depth: 0,
    what: [...thing, ...(word === '' ? [] : [word])].join(', '),
    date: day,
    where: sale?.buyer === undefined ? place : `${sale.buyer} (${place})`,
    place,
    ...(sale?.buyer === undefined ? {} : { buyer: sale.buyer }),
    link: linkIn({ least, most: move.count }),
    least,
    most,
  };
}

const WAY_WORDS: Readonly<Record<MoveWay, string>> = {
  finished: '',
  there: '',
  sold: '',
  returned: 'brought back',
  sent: 'sent',
  back: 'returned by the gallery',
  'missing-there': 'missing at the gallery',
  found: 'found at a stocktake',
  'not-found': 'not found at a stocktake',
  lost: 'lost in a refire',
  gift: 'gift',
  kept: 'kept',
  broken: 'broken',
  'given-away': 'given away',
  missing: 'missing',
};

function traceNotes(book: Book, found: Trace): string[] {
  const { lots, standing, left } = found;
  const sold = left.filter(({ move }) => move.way === 'sold');
  const unknown = sold.filter(({ move }) => book.sales.get(move.id)?.buyer === undefined);
  const all = sumOfBounds(lots, 'most');
  const atMost = (some: readonly Bounds[]): number => Math.min(all, sumOfBounds(some, 'most'));
  return sentences(
    'Recorded: a record names it. Possible: no record rules it out, so it may be so many or none.',
    lots.length > 0 &&
      `${counted(lots.length, 'lot')}: ${rangeText(sumOfBounds(lots, 'least'), all)}.`,
    standing.length > 0 &&
      `Not sold: ${rangeText(sumOfBounds(standing, 'least'), atMost(standing))}.`,
    sold.length > 0 &&
      `Sold: ${rangeText(sumOfBounds(sold, 'least'), atMost(sold))}, up to ${atMost(unknown)} of them to buyers whom no record names.`,
    'Whether ware is to be called back, and who is to be told, is for local rules and a laboratory to say.',
  );
}

/** `3 to 12 pieces`, `4 pieces`. */
function rangeText(least: number, most: number): string {
  return least === most ? counted(most, 'piece') : `${least} to ${counted(most, 'piece')}`;
}
