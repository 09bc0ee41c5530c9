/** Pieces: what stands at which stage, and finished ware by product, glaze, grade and place. */
import { once } from '../once.ts';
import type { Book, Grade } from '../book.ts';
import type { PiecesGroup } from '../groups.ts';
import { total, type Money } from '../number/money.ts';
import { restOf, totalOf } from '../reckon/costs/cost.ts';
import { broughtByRecord } from './brought.ts';
import { tableHead, sumsOf, withRows } from './head.ts';
import { placesVerdict, stagesVerdict } from './verdicts/pieces.ts';
import type { Table, ColumnOf } from './table.ts';
import { stageName } from '../check/shortage-words.ts';
import { STUDIO_PLACE, placedPieces, type LotState } from '../reckon/ware/lot.ts';
import { lotsStanding } from '../reckon/ware/ware.ts';
import type { Flows } from '../reckon/flows.ts';
import { grouped } from '../grouping.ts';
import { counted, sentences } from '../in-words.ts';
import {
  glazeDoubts,
  lotsWithoutGlaze,
  type DoubtfulGlaze,
  type GlazeDoubt,
} from '../reckon/ware/glaze-doubts.ts';

/** Pieces of one lot that stand together. */
interface StandingPieces {
  readonly lot: string;
  readonly product: string;
  readonly glaze: string;
  readonly stage: string;
  readonly grade: Grade | undefined;
  /** The studio's own place is empty. */
  readonly place: string;
  readonly count: number;
  readonly cost: Money;
}

const BY_PRODUCT: readonly ColumnOf<ReturnType<typeof productLine>>[] = [
  { key: 'product', title: 'Product', type: 'id' },
  { key: 'glaze', title: 'Glaze', type: 'text', isName: true, drop: 3 },
  { key: 'greenware', title: 'Greenware', type: 'count' },
  { key: 'bisqueware', title: 'Bisqueware', type: 'count' },
  { key: 'inKiln', title: 'In kiln', type: 'count', drop: 2 },
  { key: 'first', title: 'First', type: 'count' },
  { key: 'second', title: 'Second', type: 'count' },
  { key: 'atGalleries', title: 'Galleries', type: 'count' },
  { key: 'cost', title: 'Cost', type: 'money', drop: 1 },
];

const PIECE_COUNTS = BY_PRODUCT.flatMap(({ key, type }) => (type === 'count' ? [key] : []));

const BY_PLACE: readonly ColumnOf<ReturnType<typeof placeLine>>[] = [
  { key: 'place', title: 'Place', type: 'text' },
  { key: 'product', title: 'Product', type: 'id' },
  { key: 'glaze', title: 'Glaze', type: 'text' },
  { key: 'stage', title: 'Stage', type: 'text' },
  { key: 'grade', title: 'Grade', type: 'text' },
  { key: 'count', title: 'Count', type: 'count', bar: true },
  { key: 'cost', title: 'Cost', type: 'money' },
];

/** All pieces that stand somewhere on the day, with what they have cost so far. */
export function piecesTable(book: Book, flows: Flows, by: PiecesGroup): Table {
  const standing = [...lotsStanding(flows.ware.lots)].flatMap(piecesStanding);
  const groups = inOrderOfKeys(
    grouped(standing, by === 'product' ? productAndGlaze : placeAndStage),
  );
  const cells =
    by === 'product'
      ? withRows(BY_PRODUCT, groups.map(productLine))
      : withRows(
          BY_PLACE,
          groups.map((group) => placeLine(book, group)),
        );
  const totals = { [by]: 'total', ...sumsOf(cells) };
  const shown = { ...cells, totals };
  return {
    report: 'pieces',
    title: by === 'product' ? 'Pieces by product and glaze' : 'Pieces by place',
    ...tableHead(book, flows.stock.asOf),
    ...cells,
    totals,
    verdict:
      by === 'product' ? stagesVerdict(shown) : placesVerdict(shown, (id) => nameOfPlace(book, id)),
    notes: groups.length === 0 ? ['No pieces yet.'] : glazeNotes(book, flows),
    behind: once(() => groups.map((group) => group.map(({ lot }) => lot))),
    brought: broughtByRecord(() => groups, {
      keys: [...PIECE_COUNTS, 'count', 'cost'],
      idOf: ({ lot }) => lot,
      cellsOf: (own) => ({ ...productLine(own), count: piecesIn(own) }),
    }),
  };
}

/** Groups of things by their key. */
function inOrderOfKeys<T>(groups: ReadonlyMap<string, T[]>): T[][] {
  return [...groups.keys()].sort().map((key) => groups.get(key) ?? []);
}

function piecesStanding(state: LotState): StandingPieces[] {
  const { id: lot, product } = state.lot;
  const common = { lot, product, glaze: state.glaze, grade: undefined, place: '' };
  const underway = [
    ...state.stages.map(restOf).map((pile, at) => ({ pile, stage: stageName(state.fired, at) })),
    ...state.inKiln.map((pile) => ({ pile, stage: IN_KILN })),
  ].map(({ pile, stage }) => ({
    ...common,
    stage,
    count: pile.count,
    cost: totalOf(pile.cost),
  }));
  const finished = placedPieces(state).map(({ cost, ...placed }) => ({
    ...common,
    ...placed,
    stage: 'finished ware',
    cost: totalOf(cost),
  }));
  return [...underway, ...finished].filter((each) => each.count > 0);
}

const IN_KILN = 'in the kiln';

function productAndGlaze({ product, glaze }: StandingPieces): string {
  return `${product}\n${glaze}`;
}

function productLine(group: readonly StandingPieces[]) {
  const count = (fits: (each: StandingPieces) => boolean): number => piecesIn(group.filter(fits));
  const [first] = group;
  const inStudio = group.filter(({ place }) => place === STUDIO_PLACE);
  return {
    product: first?.product,
    glaze: first?.glaze,
    greenware: count(({ stage }) => stage === 'greenware'),
    bisqueware: count(
      ({ stage, grade }) => grade === undefined && stage !== IN_KILN && stage !== 'greenware',
    ),
    inKiln: count(({ stage }) => stage === IN_KILN),
    first: piecesIn(inStudio.filter(({ grade }) => grade === 'first')),
    second: piecesIn(inStudio.filter(({ grade }) => grade === 'second')),
    atGalleries: count(({ place }) => place !== STUDIO_PLACE),
    cost: costOfAll(group),
  };
}

function placeAndStage({ place, product, glaze, stage, grade }: StandingPieces): string {
  return [place, product, glaze, stage, grade ?? ''].join('\n');
}

function placeLine(book: Book, group: readonly StandingPieces[]) {
  const [first] = group;
  const { place = '' } = first ?? {};
  return {
    ...first,
    place: place === STUDIO_PLACE ? 'studio' : (book.channels.get(place)?.id ?? place),
    count: piecesIn(group),
    cost: costOfAll(group),
  };
}

function nameOfPlace(book: Book, place: string): string {
  return place === 'studio' ? 'in the studio' : `at ${book.channels.get(place)?.name ?? place}`;
}

function piecesIn(standing: readonly StandingPieces[]): number {
  return standing.reduce((count, each) => count + each.count, 0);
}

function costOfAll(standing: readonly StandingPieces[]): Money {
  return total(standing.map(({ cost }) => cost));
}

/** Of which glazes how many may be there, where none was named; nothing where every glaze is. */
function glazeNotes(book: Book, { ware }: Flows): string[] {
  const doubts = glazeDoubts(ware);
  const lots = lotsWithoutGlaze(book, ware);
  const ids = lots.map(({ id, product }) => `${id} (${product})`).join(', ');
  return sentences(
    ...doubts.map(doubtText),
    doubts.length > 0 && 'Counting what is there by glaze settles it: saggar add counted.',
    lots.length > 0 &&
      `${counted(lots.length, 'lot')} whose glaze is not named, though others of the product have one: ${ids}.`,
  );
}

/** `mug: 3 taken since 2026-03-04 with no glaze named, so there may be up to 3 more of rust, 2 fewer of sea-green.` */
function doubtText({ product, grade, place, since, count, glazes }: GlazeDoubt): string {
  const seconds = grade === 'second' ? ' seconds' : '';
  const where = place === STUDIO_PLACE ? '' : ` at ${place}`;
  const each = glazes.map(glazeText).join(', ');
  return `${product}${seconds}${where}: ${count} taken since ${since} with no glaze named, so there may be up to ${each}.`;
}

function glazeText({ glaze, more, fewer }: DoubtfulGlaze): string {
  const ways = sentences(more !== 0 && `${more} more`, fewer !== 0 && `${fewer} fewer`);
  return `${ways.join(' or ')} of ${glaze === '' ? 'those without a glaze' : glaze}`;
}
