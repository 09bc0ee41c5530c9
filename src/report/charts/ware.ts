/** Charts of ware: what stands at which stage and where, what is ordered by when. */
import { grouped } from '../../grouping.ts';
import type { Chart } from '../page.ts';
import { sumsOf } from '../head.ts';
import type { Column, Row, Table } from '../table.ts';
import { chartOfRows, firstRows, isSome, whatColumn } from './drawn-rows.ts';

/** The columns of `pieces` that count pieces; together they are all that stands. */
const STAGES = ['greenware', 'bisqueware', 'inKiln', 'first', 'second', 'atGalleries'] as const;

/** Heads that say without their table where the pieces are. */
const STAGE_NAMES: Readonly<Partial<Record<string, string>>> = {
  inKiln: 'In the kiln',
  first: 'Firsts in the studio',
  second: 'Seconds in the studio',
  atGalleries: 'At galleries',
};

const PIECES: Column = { key: 'pieces', title: 'Pieces', type: 'count' };

/** What stands at which stage in all, and of each product. */
export function pieceCharts(table: Table): Chart[] {
  const stages = table.columns
    .filter(({ key }) => STAGES.some((stage) => stage === key))
    .map((column): Column => ({ ...column, title: STAGE_NAMES[column.key] ?? column.title }));
  const span = `on ${table.asOf}`;
  return [stageChart(table, stages, span), productChart(table, stages, span)];
}

function stageChart(table: Table, stages: readonly Column[], span: string): Chart {
  const stage: Column = { key: 'stage', title: 'Stage', type: 'text' };
  const rows = stages.map(({ key, title }) => ({ stage: title, pieces: table.totals?.[key] }));
  return chartOfRows(table, {
    shape: 'bars',
    title: 'Pieces at each stage',
    span,
    label: stage.key,
    value: PIECES.key,
    more: [stage, PIECES],
    some: { rows: rows.filter(({ pieces }) => isSome(pieces)), words: '' },
    totals: { stage: 'total', pieces: standingIn(table.totals ?? {}) },
  });
}

/** A bar for a product in all its glazes, the most pieces first. */
function productChart(table: Table, stages: readonly Column[], span: string): Chart {
  const { columns } = table;
  const products = [...grouped(table.rows, ({ product }) => product)].map(
    ([product, rows]): Row => {
      const sums = sumsOf({ columns, rows });
      return { ...sums, product, pieces: standingIn(sums) };
    },
  );
  return chartOfRows(table, {
    shape: 'bars',
    title: 'Pieces of each product, by stage',
    span,
    label: 'product',
    value: PIECES.key,
    also: { parts: stages.filter(({ key }) => isSome(table.totals?.[key])).map(({ key }) => key) },
    more: [...stages, PIECES],
    some: firstRows(products.sort(mostPiecesFirst), 'largest'),
  });
}

function standingIn(counts: Row): number {
  return STAGES.reduce((sum, stage) => sum + Number(counts[stage] ?? 0), 0);
}

function mostPiecesFirst({ pieces: one }: Row, { pieces: other }: Row): number {
  return Number(other) - Number(one);
}

const FINISHED: readonly Column[] = [
  { key: 'underWay', title: 'Under way', type: 'count' },
  { key: 'firsts', title: 'Firsts', type: 'count' },
  { key: 'seconds', title: 'Seconds', type: 'count' },
];

/** What stands at each place. */
export function placeCharts(table: Table): Chart[] {
  const places = [...grouped(table.rows, ({ place }) => place)].map(([place, rows]): Row => {
    const of = (grade: string | null): number =>
      rows
        .filter((row) => (row['grade'] ?? null) === grade)
        .reduce((sum, { count }) => sum + Number(count), 0);
    const counts = { underWay: of(null), firsts: of('first'), seconds: of('second') };
    return { place, ...counts, count: counts.underWay + counts.firsts + counts.seconds };
  });
  return [
    chartOfRows(table, {
      shape: 'bars',
      title: 'Pieces at each place',
      span: `on ${table.asOf}`,
      label: 'place',
      value: 'count',
      more: FINISHED,
      also: { parts: FINISHED.map(({ key }) => key) },
      some: firstRows(places),
    }),
  ];
}

/** Orders by due day, each with how far it is. */
export function orderCharts(table: Table): Chart[] {
  const rows = table.rows.map((row) => ({
    ...row,
    what: `${String(row['due'] ?? 'no day')}, ${String(row['buyer'])}`,
  }));
  return [
    chartOfRows(table, {
      shape: 'bars',
      title: 'Pieces ordered, and how far they are',
      span: 'by due day',
      label: 'what',
      value: 'ordered',
      more: [whatColumn('Due')],
      also: { parts: ['delivered', 'ready', 'underWay', 'toMake'] },
      some: firstRows(rows),
    }),
  ];
}
