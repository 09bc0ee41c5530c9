/** Losses: what came out broken or flawed, by anything that might be to blame. */
import type { Book } from '../book.ts';
import { compareCones, parseCone } from '../number/cone.ts';
import type { LossGroup } from '../groups.ts';
import type { Flows } from '../reckon/flow.ts';
import {
  isFirstFiring,
  lossFacts,
  lossRows,
  lossTotal,
  overallYield,
  type LossFact,
  type LossRow,
  type LossStage,
  type Span,
} from '../reckon/losses.ts';
import { compareTexts } from '../text-order.ts';
import { spanInWords, tableHead, textColumn } from './head.ts';
import type { Column, Row, Table } from './table.ts';

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
    { key: 'second', title: 'Second', type: 'count' },
    { key: 'lost', title: 'Lost', type: 'count' },
    { key: 'lossRate', title: 'Loss rate', type: 'fraction', bar: true },
    { key: 'low', title: 'Low', type: 'fraction', drop: 2 },
    { key: 'high', title: 'High', type: 'fraction', drop: 2 },
    { key: 'secondRate', title: 'Seconds', type: 'fraction', drop: 3 },
    ...(by === 'product' ? [yieldColumn] : []),
  ];
}

const yieldColumn: Column = { key: 'yield', title: 'Comes through', type: 'fraction', drop: 1 };

/**
 * Loss rates by kind of firing, and within it by what is asked for; makings and refires stand apart and
 * are not in the totals.
 */
export function lossesTable(book: Book, flows: Flows, asked: { by: LossGroup; span: Span }): Table {
  const { by, span } = asked;
  const facts = lossFacts(book, span, flows.stock.asOf);
  const rows = lossRows(facts, by).sort((a, b) => compareRows(a, b, by));
  const yields = by === 'product' ? yieldsOf(facts) : undefined;
  return {
    report: 'losses',
    title: `Losses by ${by === 'firing' ? 'kind of firing' : TITLES[by].toLowerCase()}, ${spanInWords(span)}`,
    ...tableHead(book, flows.stock.asOf),
    columns: columnsFor(by),
    rows: rows.map((row) => rowOf(row, yields)),
    totals: { ...rowOf(lossTotal(facts)), firing: '' },
    notes: notesOn(rows, by),
    behind: rows.map((row) => row.by),
  };
}

function rowOf(row: LossRow, yields?: ReadonlyMap<string, Row['yield']>): Row {
  return {
    group: row.group,
    firing: row.stage,
    in: row.in,
    first: row.first,
    second: row.second,
    lost: row.lost,
    lossRate: row.lossRate ?? null,
    low: row.low ?? null,
    high: row.high ?? null,
    secondRate: row.secondRate ?? null,
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
  const worse = (other.lossRate && one.lossRate?.cmp(other.lossRate)) ?? 0;
  return worse === 0 ? compareTexts(one.group, other.group) : -worse;
}

function compareConeGroups(one: string, other: string): number {
  const [a, b] = [parseCone(one), parseCone(other)];
  if (a === undefined || b === undefined) return compareTexts(one, other);
  return compareCones(a, b);
}

function notesOn(rows: readonly LossRow[], by: LossGroup): string[] {
  const interval =
    'Low and high bound the loss rate with 95 % confidence: a few pieces tell little.';
  const apart = rows.some((row) => !isFirstFiring(row.stage));
  return [
    interval,
    ...(apart ? ['Making and refires stand apart and are not in the totals.'] : []),
    ...(by === 'cause' ? ['A cause counts what was lost by it first, then seconds.'] : []),
    ...(by === 'recipe' ? ['A piece with two glazes counts under both.'] : []),
  ];
}
