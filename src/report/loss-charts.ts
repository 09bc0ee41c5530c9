/** Control charts of losses: each firing beside the limits for its kind, or a small chart for each group. */
import type { Book } from '../book.ts';
import { grouped } from '../grouping.ts';
import type { LossGroup } from '../groups.ts';
import { sentences } from '../in-words.ts';
import { decimal, divide } from '../number/decimal.ts';
import { once } from '../once.ts';
import type { DaysUpTo } from '../among.ts';
import type { Flows } from '../reckon/flows.ts';
import { chartFirings, type ChartedFiring } from '../reckon/kilns/loss-chart.ts';
import { groupedFacts, lossFacts, type GroupedFacts } from '../reckon/kilns/losses.ts';
import { broughtByParts } from './brought.ts';
import { spanInWords, sparkLine, tableHead, withRows } from './head.ts';
import { LOSS_TITLES, inOrderOfGroups, loneGroup, nameOfGroup } from './loss-words.ts';
import type { ColumnOf, Table } from './table.ts';
import { chartVerdict, outAlerts } from './verdicts/losses.ts';

const CHART_COLUMNS: readonly ColumnOf<ReturnType<typeof chartLine>>[] = [
  { key: 'firing', title: 'Firing', type: 'id' },
  { key: 'date', title: 'Date', type: 'date' },
  { key: 'kind', title: 'Kind', type: 'text' },
  { key: 'in', title: 'In', type: 'count' },
  { key: 'lost', title: 'Lost', type: 'count' },
  {
    key: 'lossRate',
    title: 'Loss rate',
    type: 'fraction',
    bar: true,
    barLimit: 'upper',
    from: 'Lost ÷ In',
  },
  { key: 'lower', title: 'Lower', type: 'fraction', drop: 2 },
  { key: 'upper', title: 'Upper', type: 'fraction' },
  { key: 'laneyLower', title: 'Lower p′', type: 'fraction', drop: 2 },
  { key: 'laneyUpper', title: 'Upper p′', type: 'fraction', drop: 1 },
  { key: 'outOfLine', title: 'Out of line', type: 'text' },
];

const LIMITS = 'Limits are 3 sigma about the mean loss of that kind of firing';

/**
 * The control chart: every firing with an outcome in the span, apart by kind, beside the p-chart and
 * Laney p′ limits for firings of its kind.
 */
export function lossChartTable(book: Book, flows: Flows, span: DaysUpTo): Table {
  const firings = chartFirings(lossFacts(book, span, flows.stock.asOf));
  const cells = withRows(CHART_COLUMNS, firings.map(chartLine));
  return {
    report: 'losses',
    title: `Losses of each firing beside its limits, ${spanInWords(span)}`,
    ...tableHead(book, flows.stock.asOf),
    ...cells,
    verdict: chartVerdict(firings),
    alerts: outAlerts(cells.rows),
    notes: [
      ...coursesOf(firings),
      `${LIMITS}; p′ limits allow for loads that vary more than chance.`,
    ],
    behind: once(() => firings.map(({ firing }) => [firing.id])),
  };
}

function outOf(firings: readonly ChartedFiring[]): string[] {
  return firings.filter(({ outOfLine }) => outOfLine).map(({ firing }) => firing.id);
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
  return [...grouped(firings, ({ firing }) => firing.kind)].map(
    ([kind, rates]) => `Loss in ${kind} firings, first to last: ${sparkOf(rates)}`,
  );
}

function sparkOf(firings: readonly ChartedFiring[]): string {
  return sparkLine(firings.map(({ lossRate }) => lossRate.toNumber()));
}

/** What may be charted group by group: all but what has no firings of its own. */
export type ChartedGroup = Exclude<LossGroup, 'firing' | 'cause' | 'month'>;

interface GroupsAsked {
  readonly by: ChartedGroup;
  readonly span: DaysUpTo;
}

/** The last firings that a small chart draws. */
const DRAWN = 24;

function groupColumns(
  by: ChartedGroup,
): readonly ColumnOf<ReturnType<typeof smallCharts>[number]>[] {
  return [
    { key: 'group', title: LOSS_TITLES[by], type: 'text' },
    { key: 'firing', title: 'Firing', type: 'text' },
    { key: 'firings', title: 'Firings', type: 'count', drop: 2 },
    { key: 'in', title: 'In', type: 'count', drop: 1 },
    { key: 'lost', title: 'Lost', type: 'count' },
    { key: 'lossRate', title: 'Loss rate', type: 'fraction', from: 'Lost ÷ In' },
    { key: 'course', title: 'First to last', type: 'text' },
    { key: 'outOfLine', title: 'Out of line', type: 'text' },
  ];
}

/** The firings of each group and kind, as the table of all firings has them. */
export function chartedGroups(
  book: Book,
  flows: Flows,
  asked: GroupsAsked,
): ({ readonly name: string } & Pick<Table, 'columns' | 'rows'>)[] {
  return groupsCharted(book, flows, asked).map(({ group, firing, charted }) => ({
    name: `${loneGroup(group, asked.by)}, ${firing} firings`,
    ...withRows(CHART_COLUMNS, charted.map(chartLine)),
  }));
}

function groupsCharted(book: Book, flows: Flows, { by, span }: GroupsAsked) {
  return groupedFacts(lossFacts(book, span, flows.stock.asOf), by)
    .flatMap((group) => smallCharts(group, by))
    .sort((one, other) => inOrderOfGroups(one, other, by));
}

/** A small chart a group and kind of firing: its loss rates firing by firing, and which are out of line. */
export function lossChartsTable(book: Book, flows: Flows, { by, span }: GroupsAsked): Table {
  const charts = groupsCharted(book, flows, { by, span });
  const isLong = charts.some(({ charted }) => charted.length > DRAWN);
  const cells = withRows(groupColumns(by), charts);
  return {
    report: 'losses',
    title: `Losses firing by firing, by ${LOSS_TITLES[by].toLowerCase()}, ${spanInWords(span)}`,
    ...tableHead(book, flows.stock.asOf),
    ...cells,
    alerts: outAlerts(cells.rows),
    notes: sentences(
      `First to last: the loss rate of each firing, ${isLong ? `of the last ${DRAWN} at the most, ` : ''}each row on a scale of its own.`,
      `${LIMITS} and of that group; out of line are the firings beyond them.`,
      by === 'recipe' && 'A piece with two glazes counts under both.',
    ),
    behind: once(() => charts.map(({ charted }) => charted.map(({ firing }) => firing.id))),
    brought: broughtByParts(charts, {
      firings: ({ charted }) => charted.map(({ firing }) => [firing.id, 1] as const),
      in: ({ charted }) => charted.map((each) => [each.firing.id, each.in] as const),
      lost: ({ charted }) => charted.map((each) => [each.firing.id, each.lost] as const),
    }),
  };
}

/** What a group lost in firings of each kind. */
function smallCharts({ facts, ...name }: GroupedFacts, by: ChartedGroup) {
  const byKind = grouped(chartFirings(facts), ({ firing }) => firing.kind);
  return [...byKind].map(([stage, charted]) => {
    const count = (of: 'in' | 'lost'): number => charted.reduce((all, each) => all + each[of], 0);
    const counts = { in: count('in'), lost: count('lost') };
    return {
      group: nameOfGroup(name, by),
      stage,
      firing: stage,
      charted,
      firings: charted.length,
      ...counts,
      lossRate: divide(decimal(counts.lost), decimal(counts.in)),
      course: sparkOf(charted.slice(-DRAWN)),
      outOfLine: outOf(charted).join(', '),
    };
  });
}
