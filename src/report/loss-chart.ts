/** The control chart of losses: each firing's loss beside the limits for firings of its kind. */
import { counted } from '../in-words.ts';
import { once } from '../once.ts';
import type { Book } from '../book.ts';
import type { Flows } from '../reckon/flow.ts';
import { chartFirings, type ChartedFiring } from '../reckon/loss-chart.ts';
import { lossFacts, type Span } from '../reckon/losses.ts';
import { spanInWords, tableHead, textColumn } from './head.ts';
import { sparkLine } from './spark-line.ts';
import type { Column, Row, Table } from './table.ts';

const COLUMNS: readonly Column[] = [
  { key: 'firing', title: 'Firing', type: 'id' },
  { key: 'date', title: 'Date', type: 'date' },
  textColumn('kind', 'Kind'),
  { key: 'in', title: 'In', type: 'count' },
  { key: 'lost', title: 'Lost', type: 'count' },
  { key: 'lossRate', title: 'Loss rate', type: 'fraction', bar: true },
  { key: 'lower', title: 'Lower', type: 'fraction', drop: 2 },
  { key: 'upper', title: 'Upper', type: 'fraction' },
  { key: 'laneyLower', title: 'Lower p′', type: 'fraction', drop: 2 },
  { key: 'laneyUpper', title: 'Upper p′', type: 'fraction', drop: 1 },
  textColumn('outOfLine', 'Out of line'),
];

/** Every firing with an outcome in the span, apart by kind, with p-chart and Laney p′ limits. */
export function lossChartTable(book: Book, flows: Flows, span: Span): Table {
  const firings = chartFirings(lossFacts(book, span, flows.stock.asOf));
  const out = firings.filter((firing) => firing.outOfLine);
  return {
    report: 'losses',
    title: `Losses of each firing beside its limits, ${spanInWords(span)}`,
    ...tableHead(book, flows.stock.asOf),
    columns: COLUMNS,
    rows: firings.map(rowOf),
    notes: [...coursesOf(firings), ...notesOn(out)],
    behind: once(() => firings.map(({ firing }) => [firing.id])),
  };
}

function rowOf(charted: ChartedFiring): Row {
  const { firing, limits, laney } = charted;
  return {
    firing: firing.id,
    date: firing.date,
    kind: firing.kind,
    in: charted.in,
    lost: charted.lost,
    lossRate: charted.lossRate,
    lower: limits.lower,
    upper: limits.upper,
    laneyLower: laney?.lower ?? null,
    laneyUpper: laney?.upper ?? null,
    outOfLine: verdict(charted),
  };
}

/** Out of line is what the p-chart says; where loads vary little, p′ limits may be the narrower ones. */
function verdict({ outOfLine, outOfLaney }: ChartedFiring): string | null {
  if (!outOfLine) return null;
  return outOfLaney ? 'yes, also p′' : 'yes';
}

/** Each kind's loss rates at a glance, first firing to last. */
function coursesOf(firings: readonly ChartedFiring[]): string[] {
  const kinds = [...new Set(firings.map(({ firing }) => firing.kind))];
  return kinds.map((kind) => {
    const rates = firings.filter(({ firing }) => firing.kind === kind);
    return `Loss in ${kind} firings, first to last: ${sparkLine(rates.map(({ lossRate }) => lossRate.toNumber()))}`;
  });
}

function notesOn(out: readonly ChartedFiring[]): string[] {
  const limits =
    'Limits are 3 sigma about the mean loss of that kind of firing; p′ limits allow for loads that vary more than chance.';
  if (out.length === 0) return ['No firing is out of line.', limits];
  const ids = out.map(({ firing }) => firing.id).join(', ');
  return [`${counted(out.length, 'firing')} out of line: ${ids}.`, limits];
}
