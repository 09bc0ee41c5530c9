/** Losses: what came out broken or flawed, by anything that might be to blame. */
import type { Book } from '../book.ts';
import { grouped } from '../grouping.ts';
import type { LossGroup } from '../groups.ts';
import { counted, sentences } from '../in-words.ts';
import { compareCones, parseCone } from '../number/cone.ts';
import type { Decimal } from '../number/decimal.ts';
import { once } from '../once.ts';
import type { Flows } from '../reckon/flows.ts';
import type { DaysUpTo } from '../among.ts';
import { chartFirings, type ChartedFiring } from '../reckon/kilns/loss-chart.ts';
import {
  isFirstFiring,
  lossFacts,
  lossRows,
  lossTotal,
  overallYield,
  type LossFact,
  type LossRow,
  type LossStage,
} from '../reckon/kilns/losses.ts';
import { compareTexts } from '../text-order.ts';
import { cellsOf, spanInWords, sparkLine, tableHead, withRows } from './head.ts';
import type { ColumnOf, Table } from './table.ts';

const LOSS_TITLES: Readonly<Record<LossGroup, string>> = {
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

const GROUPED: readonly ColumnOf<LossLine>[] = [
  { key: 'in', title: 'In', type: 'count' },
  { key: 'first', title: 'First', type: 'count', drop: 4 },
];
const FAULTS: readonly ColumnOf<LossLine>[] = [
  { key: 'faults', title: 'Faults', type: 'count' },
  { key: 'faultRate', title: 'Rate', type: 'fraction', bar: true },
];
const OUTCOME_COLUMNS: readonly ColumnOf<LossLine>[] = [
  { key: 'second', title: 'Second', type: 'count' },
  { key: 'lost', title: 'Lost', type: 'count' },
];
const BOUNDS: readonly ColumnOf<LossLine>[] = [
  { key: 'low', title: 'Low', type: 'fraction', drop: 2 },
  { key: 'high', title: 'High', type: 'fraction', drop: 2 },
];

function lossColumns(by: LossGroup): ColumnOf<LossLine>[] {
  if (by === 'cause')
    return [...groupColumns(by), ...GROUPED, ...FAULTS, ...BOUNDS, ...OUTCOME_COLUMNS];
  return [
    ...groupColumns(by),
    ...GROUPED,
    ...OUTCOME_COLUMNS,
    { key: 'lossRate', title: 'Loss rate', type: 'fraction', bar: true },
    ...BOUNDS,
    { key: 'secondRate', title: 'Seconds', type: 'fraction', drop: 3 },
    ...(by === 'product' ? [COMES_THROUGH] : []),
  ];
}

function groupColumns(by: LossGroup): ColumnOf<LossLine>[] {
  const group = { key: 'group', title: LOSS_TITLES[by], type: 'text' } as const;
  return by === 'firing' ? [group] : [group, { key: 'firing', title: 'Firing', type: 'text' }];
}

const COMES_THROUGH: ColumnOf<LossLine> = {
  key: 'yield',
  title: 'Comes through',
  type: 'fraction',
  drop: 1,
};

/** A row with the firing that it is of, and what of a product comes through all its firings. */
type LossLine = Omit<LossRow, 'by'> & {
  readonly firing: string;
  readonly yield?: Decimal | undefined;
};

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
  const columns = lossColumns(by);
  return {
    report: 'losses',
    title: `Losses by ${by === 'firing' ? 'kind of firing' : LOSS_TITLES[by].toLowerCase()}, ${spanInWords(span)}`,
    ...tableHead(book, flows.stock.asOf),
    ...withRows(
      columns,
      rows.map((row) => ({ ...row, firing: row.stage, yield: yields?.get(row.group) })),
    ),
    totals: cellsOf(
      columns.filter((column) => column !== COMES_THROUGH),
      { ...lossTotal(facts, by), group: 'all firings', firing: '' },
    ),
    notes: lossNotes(rows, by),
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

/** What comes through making and all firings, for each product. */
function yieldsOf(facts: readonly LossFact[]): Map<string, Decimal | undefined> {
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

function lossNotes(rows: readonly LossRow[], by: LossGroup): string[] {
  const rate = by === 'cause' ? 'rate of faults' : 'loss rate';
  const isApart = rows.some((row) => !isFirstFiring(row.stage));
  return sentences(
    `Low and high bound the ${rate} with 95 % confidence: a few pieces tell little.`,
    isApart && 'Making and refires stand apart and are not in the totals.',
    by === 'cause' &&
      'A fault is a second or a lost piece. Second and Lost by cause are what is certain; where a load has both, lost-to in its line says which causes the lost pieces are due to.',
    by === 'recipe' && 'A piece with two glazes counts under both.',
  );
}

const CHART_COLUMNS: readonly ColumnOf<ReturnType<typeof chartLine>>[] = [
  { key: 'firing', title: 'Firing', type: 'id' },
  { key: 'date', title: 'Date', type: 'date' },
  { key: 'kind', title: 'Kind', type: 'text' },
  { key: 'in', title: 'In', type: 'count' },
  { key: 'lost', title: 'Lost', type: 'count' },
  { key: 'lossRate', title: 'Loss rate', type: 'fraction', bar: true },
  { key: 'lower', title: 'Lower', type: 'fraction', drop: 2 },
  { key: 'upper', title: 'Upper', type: 'fraction' },
  { key: 'laneyLower', title: 'Lower p′', type: 'fraction', drop: 2 },
  { key: 'laneyUpper', title: 'Upper p′', type: 'fraction', drop: 1 },
  { key: 'outOfLine', title: 'Out of line', type: 'text' },
];

/**
 * The control chart: every firing with an outcome in the span, apart by kind, beside the p-chart and
 * Laney p′ limits for firings of its kind.
 */
export function lossChartTable(book: Book, flows: Flows, span: DaysUpTo): Table {
  const firings = chartFirings(lossFacts(book, span, flows.stock.asOf));
  const out = firings.filter(({ outOfLine }) => outOfLine).map(({ firing }) => firing.id);
  return {
    report: 'losses',
    title: `Losses of each firing beside its limits, ${spanInWords(span)}`,
    ...tableHead(book, flows.stock.asOf),
    ...withRows(CHART_COLUMNS, firings.map(chartLine)),
    notes: [
      ...coursesOf(firings),
      out.length === 0
        ? 'No firing is out of line.'
        : `${counted(out.length, 'firing')} out of line: ${out.join(', ')}.`,
      'Limits are 3 sigma about the mean loss of that kind of firing; p′ limits allow for loads that vary more than chance.',
    ],
    behind: once(() => firings.map(({ firing }) => [firing.id])),
  };
}

function chartLine(charted: ChartedFiring) {
  const { firing, limits, laney, outOfLine, outOfLaney } = charted;
  return {
    ...firing,
    ...charted,
    ...limits,
    firing: firing.id,
    laneyLower: laney?.lower,
    laneyUpper: laney?.upper,
    // What the p-chart says; where loads vary little, p′ limits may be the narrower ones.
    outOfLine: outOfLine ? (outOfLaney ? 'yes, also p′' : 'yes') : null,
  };
}

/** Each kind's loss rates at a glance, first firing to last. */
function coursesOf(firings: readonly ChartedFiring[]): string[] {
  const byKind = grouped(firings, ({ firing }) => firing.kind);
  return [...byKind].map(([kind, rates]) => {
    const course = sparkLine(rates.map(({ lossRate }) => lossRate.toNumber()));
    return `Loss in ${kind} firings, first to last: ${course}`;
  });
}
