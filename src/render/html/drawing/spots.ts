/** Spots that lie by two figures, parted at the medians of both. */
import { type Markup, lines } from '../markup.ts';
import { type DrawnAt, dot, stroke, textWidth, words } from './marks.ts';
import { type WantedWords, placedWords } from './placed-words.ts';
import { type ChartPlan, type Drawing, sizes } from './plan.ts';
import { type Scale, scaleOf, scaleOver } from './scale.ts';

const TOP = 42;
const PLOT = 280;
const BELOW = 38;
/** Spots keep so many percent from both sides, so that none lies on an edge. */
const SIDE = 4;

/** Where two figures lie. */
interface SpotField {
  readonly high: Scale;
  readonly wide: Scale;
  readonly left: number;
  readonly place: (across: number, value: number) => DrawnAt;
}

export function spots(plan: ChartPlan): Drawing {
  const field = fieldOf(plan);
  const { points } = plan;
  const known = points.flatMap(({ label, value, across }) =>
    value && across ? [{ ...field.place(across.size, value.size), text: label }] : [],
  );
  const height = TOP + PLOT;
  const drawn = known.map((each) => dot(each, 4.5, each.text));
  const said = placedWords([...known, ...corners(plan, field)], { dots: known, height });
  const content = [...bothScales(plan, field), ...medians(plan, field), ...drawn, ...said];
  return { height: height + BELOW, content: lines(content) };
}

function fieldOf({ points, chart, markOf }: ChartPlan): SpotField {
  const high = scaleOver(withFloor(sizes(points.map(({ value }) => value))));
  const wide = scaleOf(sizes(points.map(({ across }) => across)));
  const mark = markOf(chart.value);
  const left = Math.max(...high.marks.map((value) => textWidth(mark(value)))) + SIDE;
  const place = (across: number, value: number): DrawnAt => ({
    x: left + (100 - left - SIDE) * wide.at(across),
    y: TOP + PLOT * (1 - high.at(value)),
  });
  return { high, wide, left, place };
}

/** The figures and a little below them, but for what would only be below zero. */
function withFloor(values: readonly number[]): number[] {
  if (values.length === 0) return [0];
  const low = Math.min(...values);
  const floor = low - (Math.max(...values) - low) / 8;
  return [...values, low >= 0 ? Math.max(0, floor) : floor];
}

/** Both scales, each with what it is of. */
function bothScales({ chart, headOf, markOf }: ChartPlan, field: SpotField): Markup[] {
  const { high, wide, place } = field;
  const bottom = TOP + PLOT;
  const across = chart.across ?? '';
  const flat = high.marks.flatMap((value) => {
    const { y } = place(0, value);
    const text = words('mark', { x: 0, y: y - 4 }, markOf(chart.value)(value));
    return [stroke(value === 0 ? 'zero' : 'grid', { x: 0, y }, { x: 100, y }), text];
  });
  const steep = wide.marks.flatMap((value) => {
    const { x } = place(value, high.high);
    const line = stroke(value === 0 ? 'zero' : 'grid', { x, y: TOP }, { x, y: bottom });
    return [line, words('mark', { x, y: bottom + 15, anchor: 'middle' }, markOf(across)(value))];
  });
  return [
    ...flat,
    ...steep,
    words('mark', { x: 0, y: 12 }, `↑ ${headOf(chart.value)}`),
    words('mark', { x: 100, y: bottom + 31, anchor: 'end' }, `${headOf(across)} →`),
  ];
}

/** Half of the spots lie on either side of each line. */
function medians({ points, markOf, chart }: ChartPlan, { place }: SpotField): Markup[] {
  const value = median(sizes(points.map((each) => each.value)));
  const across = median(sizes(points.map((each) => each.across)));
  const { x, y } = place(across, value);
  const said = `${markOf(chart.value)(nearly(value))} and ${markOf(chart.across ?? '')(nearly(across))}`;
  return [
    stroke('limit', { x: 0, y }, { x: 100, y }),
    stroke('limit', { x, y: TOP }, { x, y: TOP + PLOT }),
    words('mark', { x: 0, y: 26 }, `Dashed: the medians, ${said}`),
  ];
}

/** So near that nobody would see more in the drawing. */
function nearly(size: number): number {
  return Number(size.toPrecision(4));
}

/** The middle figure, or halfway between both that are; of none zero. */
function median(values: readonly number[]): number {
  const sorted = values.toSorted((one, other) => one - other);
  const at = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(at)] ?? 0) + (sorted[Math.ceil(at)] ?? 0)) / 2;
}

/** What each quarter means, where there is room for it. */
function corners({ chart }: ChartPlan, { left }: SpotField): WantedWords[] {
  const { topLeft = '', topRight = '', bottomLeft = '', bottomRight = '' } = chart.corners ?? {};
  const [top, bottom] = [TOP + 12, TOP + PLOT - 10];
  return [
    { x: 98, y: top, text: topRight },
    { x: left, y: top, text: topLeft },
    { x: left, y: bottom, text: bottomLeft },
    { x: 98, y: bottom, text: bottomRight },
  ].flatMap((each) => (each.text === '' ? [] : [{ ...each, kind: 'corner' }]));
}
