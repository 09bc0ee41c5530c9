/** Pieces: what stands at which stage, and finished ware by product, glaze, grade and place. */
import { once } from '../once.ts';
import type { Book, Grade } from '../book.ts';
import type { PiecesGroup } from '../groups.ts';
import { total, type Money } from '../number/money.ts';
import { restOf, totalOf } from '../reckon/cost.ts';
import { glazeNotes } from './glaze-notes.ts';
import { moneyColumn, tableHead, textColumn } from './head.ts';
import type { Column, Row, Table } from './table.ts';
import { stageName } from '../check/shortage-words.ts';
import { STUDIO_PLACE, placedPieces, type LotState } from '../reckon/lot.ts';
import { lotsStanding } from '../reckon/ware.ts';
import type { Flows } from '../reckon/flows.ts';

/** Pieces of one lot that stand together. */
interface Standing {
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

const BY_PRODUCT: readonly Column[] = [
  { key: 'product', title: 'Product', type: 'id' },
  textColumn('glaze', 'Glaze'),
  { key: 'greenware', title: 'Greenware', type: 'count' },
  { key: 'bisqueware', title: 'Bisqueware', type: 'count' },
  { key: 'inKiln', title: 'In kiln', type: 'count', drop: 2 },
  { key: 'first', title: 'First', type: 'count' },
  { key: 'second', title: 'Second', type: 'count' },
  { key: 'atGalleries', title: 'Galleries', type: 'count' },
  moneyColumn('cost', 'Cost', { drop: 1 }),
];

const BY_PLACE: readonly Column[] = [
  textColumn('place', 'Place'),
  { key: 'product', title: 'Product', type: 'id' },
  textColumn('glaze', 'Glaze'),
  textColumn('stage', 'Stage'),
  textColumn('grade', 'Grade'),
  { key: 'count', title: 'Count', type: 'count', bar: true },
  moneyColumn('cost', 'Cost'),
];

/** All pieces that stand somewhere on the day, with what they have cost so far. */
export function piecesTable(book: Book, flows: Flows, by: PiecesGroup): Table {
  const standing = [...lotsStanding(flows.ware.lots)].flatMap(standingOf);
  const groups = groupsOf(standing, by === 'product' ? productKey : placeKey);
  const rows = groups.map(by === 'product' ? productRow : (group) => placeRow(book, group));
  const columns = by === 'product' ? BY_PRODUCT : BY_PLACE;
  return {
    report: 'pieces',
    title: by === 'product' ? 'Pieces by product and glaze' : 'Pieces by place',
    ...tableHead(book, flows.stock.asOf),
    columns,
    rows,
    totals: totalsOf(columns, rows, standing),
    notes: rows.length === 0 ? ['Nothing stands anywhere yet.'] : glazeNotes(book, flows),
    behind: once(() => groups.map((group) => group.map(({ lot }) => lot))),
  };
}

function standingOf(state: LotState): Standing[] {
  const { id: lot, product } = state.lot;
  const common = { lot, product, glaze: state.glaze, grade: undefined, place: '' };
  const onTheWay = state.stages.map(restOf).map((pile, stage) => ({
    ...common,
    stage: stageName(state.fired, stage),
    count: pile.count,
    cost: totalOf(pile.cost),
  }));
  const inKiln = state.inKiln.map((pile) => ({
    ...common,
    stage: 'in the kiln',
    count: pile.count,
    cost: totalOf(pile.cost),
  }));
  return [...onTheWay, ...inKiln, ...finishedOf(state)].filter((each) => each.count > 0);
}

function finishedOf(state: LotState): Standing[] {
  return placedPieces(state).map(({ grade, place, count, cost }) => ({
    lot: state.lot.id,
    product: state.lot.product,
    glaze: state.glaze,
    stage: 'finished ware',
    grade,
    place,
    count,
    cost: totalOf(cost),
  }));
}

function productKey({ product, glaze }: Standing): string {
  return `${product}\n${glaze}`;
}

function productRow(group: readonly Standing[]): Row {
  const count = (fits: (each: Standing) => boolean): number => countOf(group.filter(fits));
  const [first] = group;
  return {
    product: first?.product ?? null,
    glaze: first?.glaze ?? null,
    greenware: count((each) => each.stage === 'greenware'),
    bisqueware: count((each) => isUnderway(each) && each.stage !== 'greenware'),
    inKiln: count((each) => each.stage === 'in the kiln'),
    first: count((each) => each.grade === 'first' && each.place === STUDIO_PLACE),
    second: count((each) => each.grade === 'second' && each.place === STUDIO_PLACE),
    atGalleries: count((each) => each.place !== STUDIO_PLACE),
    cost: total(group.map((each) => each.cost)),
  };
}

function isUnderway({ stage, grade }: Standing): boolean {
  return grade === undefined && stage !== 'in the kiln';
}

function placeKey({ place, product, glaze, stage, grade }: Standing): string {
  return [place, product, glaze, stage, grade ?? ''].join('\n');
}

function placeRow(book: Book, group: readonly Standing[]): Row {
  const [first] = group;
  return {
    place: placeName(book, first?.place ?? ''),
    product: first?.product ?? null,
    glaze: first?.glaze ?? null,
    stage: first?.stage ?? null,
    grade: first?.grade ?? null,
    count: countOf(group),
    cost: total(group.map((each) => each.cost)),
  };
}

function placeName(book: Book, place: string): string {
  return place === STUDIO_PLACE ? 'studio' : (book.channels.get(place)?.id ?? place);
}

function groupsOf(standing: readonly Standing[], keyOf: (each: Standing) => string): Standing[][] {
  const groups = new Map<string, Standing[]>();
  for (const each of standing) {
    const key = keyOf(each);
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  return [...groups.keys()].sort().map((key) => groups.get(key) ?? []);
}

function countOf(standing: readonly Standing[]): number {
  return standing.reduce((count, each) => count + each.count, 0);
}

function totalsOf(
  columns: readonly Column[],
  rows: readonly Row[],
  standing: readonly Standing[],
): Row {
  const counts = columns
    .filter((column) => column.type === 'count')
    .map((column) => [column.key, rows.reduce((all, row) => all + Number(row[column.key]), 0)]);
  const label = columns[0]?.key ?? 'product';
  return {
    [label]: 'total',
    ...(Object.fromEntries(counts) as Row),
    cost: total(standing.map((each) => each.cost)),
  };
}
