/** What a trace finds, line by line. */
import type { Book } from '../../book.ts';
import { stageName } from '../../check/shortage-words.ts';
import { inForce } from '../../in-force.ts';
import type { MoveWay } from '../../reckon/tracing/moves.ts';
import type {
  LeftBounds,
  StandingBounds,
  Trace,
  TracedLot,
  TracedSupply,
  TracedUse,
} from '../../reckon/tracing/trace.ts';
import type { Bounds } from '../../reckon/tracing/whereabouts.ts';
import { firingsOf } from '../../reckon/ware/stages.ts';

/** One line of a trace. */
export interface TraceLine {
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
  /** What it is of, in words: lines with the same ones are told together where there are many. */
  readonly of: string;
}

/** The parts of a trace, in their order, with their headings. */
export const TRACE_HEADINGS = {
  sources: 'What is in it',
  into: 'What it went into',
  lots: 'Lots with it',
  otherwise: 'Used otherwise',
  standing: 'Still in the studio',
  galleries: 'At galleries',
  sold: 'Sold',
  gone: 'Gone without a sale',
} as const;

const PARTS = TRACE_HEADINGS;

/** Everything that was found, part by part. */
export function traceLines(book: Book, found: Trace): TraceLine[] {
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
      of: `${kind} firings`,
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
  const of = `${SUPPLY_WORDS[kind]}${pool} (${certainty})`;
  const where = supplier ?? '';
  return { part, kind, record: by, depth, what, of, date: day, where, link: certainty };
}

const SUPPLY_WORDS: Readonly<Record<TracedSupply['supply']['kind'], string>> = {
  bag: '',
  mix: 'mix of ',
  reclaimed: 'reclaimed: ',
  opening: 'there at the start: ',
};

function useLine(book: Book, { use, certainty }: TracedUse): TraceLine {
  const firing = book.firings.get(use.by);
  const purpose = book.used.get(use.by)?.for ?? 'studio';
  const of = firing ? `${use.pool} in a ${firing.kind} firing` : `${use.pool} used for ${purpose}`;
  return {
    part: PARTS.otherwise,
    kind: firing ? 'firing' : 'use',
    record: use.by,
    depth: 0,
    what: `${of} (${certainty})`,
    of: `${of} (${certainty})`,
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
    of: [title ?? product, glaze].filter((each) => each !== '').join(', '),
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
  const what = [product, glaze, stageWords(book, each)].filter((word) => word !== '').join(', ');
  return {
    part: isAway ? PARTS.galleries : PARTS.standing,
    kind: 'ware',
    record: others.length === 0 ? only : '',
    depth: 0,
    what,
    of: what,
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
    of: sale ? ofBuyer(sale.buyer, word) : word,
    date: day,
    where: sale?.buyer === undefined ? place : `${sale.buyer} (${place})`,
    place,
    ...(sale?.buyer === undefined ? {} : { buyer: sale.buyer }),
    link: linkIn({ least, most: move.count }),
    least,
    most,
  };
}

function ofBuyer(buyer: string | undefined, word: string): string {
  const who = buyer === undefined ? 'sold to nobody on record' : `sold to ${buyer}`;
  return word === '' ? who : `${word}: ${who}`;
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
