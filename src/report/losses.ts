/** Losses: what came out broken or flawed, by anything that might be to blame. */
import { once } from '../once.ts';
import type { Book } from '../book.ts';
import { compareCones, parseCone } from '../number/cone.ts';
import type { LossGroup } from '../groups.ts';
import {
  isFirstFiring,
  lossFacts,
  lossRows,
  lossTotal,
  overallYield,
  type LossFact,
  type LossRow,
  type LossStage,
} from '../reckon/losses.ts';
import type { DaysUpTo } from '../among.ts';
import { compareTexts } from '../text-order.ts';
import { spanInWords, tableHead, textColumn } from './head.ts';
import type { Column, Row, Table } from './table.ts';
import type { Flows } from '../reckon/flows.ts';

const TITLES: Readonly<Record<LossGroup, string>> = {
  firing: 'Firing',
  kiln: 'Kiln',
  product: 'Product',
  recipe: 'Recipe',
  cone: 'Cone',
  cause: 'Cause',
  maker: 'Maker',
  month: 'Month',
  'clay-lot': 'Clay lot',
};

const STAGES: readonly LossStage[] = [
  'making',
  'bisque',
  'glaze',
  'once',
  'lustre',
  'raku',
  'test',
  'bisque refire',
  'glaze refire',
  'once refire',
  'lustre refire',
  'raku refire',
  'test refire',
];

function columnsFor(by: LossGroup): Column[] {
  return [
    textColumn('group', TITLES[by]),
    ...(by === 'firing' ? [] : [textColumn('firing', 'Firing')]),
    { key: 'in', title: 'In', type: 'count' },
    { key: 'first', title: 'First', type: 'count', drop: 4 },
    ...(by === 'cause' ? [...faultColumns, ...boundColumns, ...outcomeColumns] : []),
    ...(by === 'cause'
      ? []
      : [...outcomeColumns, lossRateColumn, ...boundColumns, secondRateColumn]),
    ...(by === 'product' ? [yieldColumn] : []),
  ];
}

const faultColumns: readonly Column[] = [
  { key: 'faults', title: 'Faults', type: 'count' },
  { key: 'faultRate', title: 'Rate', type: 'fraction', bar: true },
];
const outcomeColumns: readonly Column[] = [
  { key: 'second', title: 'Second', type: 'count' },
  { key: 'lost', title: 'Lost', type: 'count' },
];
const boundColumns: readonly Column[] = [
  { key: 'low', title: 'Low', type: 'fraction', drop: 2 },
  { key: 'high', title: 'High', type: 'fraction', drop: 2 },
];
const lossRateColumn: Column = { key: 'lossRate', title: 'Loss rate', type: 'fraction', bar: true };
const secondRateColumn: Column = { key: 'secondRate', title: 'Seconds', type: 'fraction', drop: 3 };
const yieldColumn: Column = { key: 'yield', title: 'Comes through', type: 'fraction', drop: 1 };

/**
 * Loss rates by kind of firing, and within it by what is asked for; makings and refires stand apart and
 * are not in the totals.
 */
export function lossesTable(
  book: Book,
  flows: Flows,
  asked: { by: LossGroup; span: DaysUpTo },
): Table {
  const { by, span } = asked;
  const facts = lossFacts(book, span, flows.stock.asOf);
  const rows = lossRows(facts, by)
    .map((row) => withName(row, by))
    .sort((a, b) => compareRows(a, b, by));
  const yields = by === 'product' ? yieldsOf(facts) : undefined;
  return {
    report: 'losses',
    title: `Losses by ${by === 'firing' ? 'kind of firing' : TITLES[by].toLowerCase()}, ${spanInWords(span)}`,
    ...tableHead(book, flows.stock.asOf),
    columns: columnsFor(by),
    rows: rows.map((row) => rowOf(row, by, yields)),
    totals: { ...rowOf(lossTotal(facts, by), by), group: 'all firings', firing: '' },
    notes: notesOn(rows, by),
    behind: once(() => rows.map((row) => row.by)),
  };
}

/** What is missing where a group has no name. */
const LACKING: Readonly<Partial<Record<LossGroup, string>>> = {
  recipe: 'glaze',
  'clay-lot': 'clay lot',
};

function withName(row: LossRow, by: LossGroup): LossRow {
  const { nameless } = row;
  if (nameless === undefined) return row;
  const names = {
    'for-others': "class and customers' ware",
    unglazed: 'not glazed yet',
    unknown: `no ${LACKING[by] ?? by} on record`,
  };
  return { ...row, group: names[nameless] };
}

function rowOf(row: LossRow, by: LossGroup, yields?: ReadonlyMap<string, Row['yield']>): Row {
  const rates =
    by === 'cause'
      ? { faults: row.faults, faultRate: row.faultRate ?? null }
      : { lossRate: row.lossRate ?? null, secondRate: row.secondRate ?? null };
  return {
    group: row.group,
    firing: row.stage,
    in: row.in,
    first: row.first,
    second: row.second,
    lost: row.lost,
    ...rates,
    low: row.low ?? null,
    high: row.high ?? null,
    ...(yields ? { yield: yields.get(row.group) ?? null } : {}),
  };
}

/** What comes through making and all firings, for each product. */
function yieldsOf(facts: readonly LossFact[]): Map<string, Row['yield'] & object> {
  const products = new Set(facts.flatMap((fact) => (fact.product ? [fact.product.id] : [])));
  return new Map(
    [...products].map((id) => {
      const own = facts.filter((fact) => fact.product?.id === id);
      return [id, overallYield(lossRows(own, 'firing'))];
    }),
  );
}

/** By stage in the order of the work; then cones and months in their order, all else worst first. */
function compareRows(one: LossRow, other: LossRow, by: LossGroup): number {
  const stage = STAGES.indexOf(one.stage) - STAGES.indexOf(other.stage);
  if (stage !== 0) return stage;
  if (by === 'month') return compareTexts(one.group, other.group);
  if (by === 'cone') return compareConeGroups(one.group, other.group);
  const rate = by === 'cause' ? 'faultRate' : 'lossRate';
  const worse = (other[rate] && one[rate]?.cmp(other[rate])) ?? 0;
  return worse === 0 ? compareTexts(one.group, other.group) : -worse;
}

function compareConeGroups(one: string, other: string): number {
  const [a, b] = [parseCone(one), parseCone(other)];
  if (a === undefined || b === undefined) return compareTexts(one, other);
  return compareCones(a, b);
}

function notesOn(rows: readonly LossRow[], by: LossGroup): string[] {
  const rate = by === 'cause' ? 'rate of faults' : 'loss rate';
  const interval = `Low and high bound the ${rate} with 95 % confidence: a few pieces tell little.`;
  const apart = rows.some((row) => !isFirstFiring(row.stage));
  return [
    interval,
    ...(apart ? ['Making and refires stand apart and are not in the totals.'] : []),
    ...(by === 'cause' ? CAUSE_NOTES : []),
    ...(by === 'recipe' ? ['A piece with two glazes counts under both.'] : []),
  ];
}

const CAUSE_NOTES = [
  'A fault is a second or a lost piece. Second and Lost by cause are what is certain; where a load has both, lost-to in its line says which causes the lost pieces are due to.',
];
