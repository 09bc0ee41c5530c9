/** Drawings of rows below each other, each with its name and figure above it: bars, intervals, days. */
import { type Markup, lines, markup } from '../markup.ts';
import { type Anchor, box, cutToRoom, dot, outline, stroke, textWidth, words } from './marks.ts';
import { type ChartPlan, type Drawing, type DrawnFigure, type Point, sizes } from './plan.ts';
import { type Scale, dayScale, scaleOf } from './scale.ts';

/** A row's drawing, from its own top. */
interface LyingRow {
  readonly height: number;
  readonly content: readonly Markup[];
}

/** A scale and how much of the width it has, in percent. */
interface LyingScale {
  readonly scale: Scale;
  readonly width: number;
}

const ROW = 38;
const NAME_Y = 15;
const BAR = 21;
const THICK = 10;
const SCALE_ROOM = 24;
const WORDS_LINE = 14;
const TEXT_GAP = 2.5;

/** Bars from the line of zero, of their parts where they have any, with marks across. */
export function bars(plan: ChartPlan): Drawing {
  const { points } = plan;
  const ends = points.flatMap((point) => [
    ...sizes([point.value, ...point.marks]),
    ...partEnds(point),
  ]);
  const ground = { scale: scaleOf(ends), width: 100 };
  const rows = points.map((point): LyingRow => {
    const marks = marksAcross(plan, point, ground);
    const content = [nameAndFigure(point), ...barOf(point, ground), ...marks.content];
    return { height: ROW + marks.height, content };
  });
  return lying(plan, ground, rows);
}

/** How far the parts of a bar reach, down and up. */
function partEnds({ parts }: Point): number[] {
  const all = sizes(parts);
  const sum = (some: readonly number[]): number => some.reduce((both, each) => both + each, 0);
  return [sum(all.filter((size) => size < 0)), sum(all.filter((size) => size > 0))];
}

function barOf({ value, parts }: Point, ground: LyingScale): Markup[] {
  if (sizes(parts).length > 0) return partBoxes(parts, ground);
  return value === undefined || value.size === 0
    ? []
    : [bar('bar', { low: 0, high: value.size }, ground)];
}

/** Parts one after another, those less than zero to the other side. */
function partBoxes(parts: Point['parts'], ground: LyingScale): Markup[] {
  const reached = { up: 0, down: 0 };
  return parts.flatMap((part, at) => {
    if (part === undefined || part.size === 0) return [];
    const side = part.size > 0 ? 'up' : 'down';
    const from = reached[side];
    reached[side] += part.size;
    return [bar(partKind(at), { low: from, high: reached[side] }, ground)];
  });
}

/** The patterns that parts are told apart by. */
const PATTERNS = 8;

/** Class of the part with that number. */
export function partKind(at: number): string {
  return `part part-${(at % PATTERNS) + 1}`;
}

/** From which figure to which a bar reaches. */
interface BarEnds {
  readonly low: number;
  readonly high: number;
}

function bar(kind: string, { low, high }: BarEnds, ground: LyingScale): Markup {
  const [from, to] = [across(ground, low), across(ground, high)];
  return box(kind, { from, to, y: BAR, height: THICK });
}

function across({ scale, width }: LyingScale, value: number): number {
  return scale.at(value) * width;
}

/** Ticks with their words and figures below the bar, on as many lines as they need. */
function marksAcross(plan: ChartPlan, { marks }: Point, ground: LyingScale): LyingRow {
  const all = marks.flatMap((mark, at) => {
    if (mark === undefined) return [];
    const text = `${plan.headOf(plan.chart.marks?.[at] ?? '').toLowerCase()} ${mark.shown}`;
    return [{ at, text, width: textWidth(text), x: across(ground, mark.size) }];
  });
  const isToRight = all.every(({ x, width }) => x + width <= 100);
  // What lies furthest to where the words go is the first below the bar: no tick goes through it.
  const sorted = all.toSorted((one, other) => (isToRight ? other.x - one.x : one.x - other.x));
  const taken: TakenLine[] = [];
  const content = sorted.flatMap(({ at, text, width, x }) => {
    const anchor: Anchor = isToRight || x < width ? 'start' : 'end';
    const from = anchor === 'end' ? x - width : x;
    const stretch = freeLine(taken, { from, to: from + width + TEXT_GAP });
    taken.push(stretch);
    const y = BAR + THICK + 14 + stretch.line * WORDS_LINE;
    const tick = stroke(`tick tick-${at + 1}`, { x, y: BAR - 3 }, { x, y: y - 10 });
    return [tick, words('mark', { x, y, anchor }, text)];
  });
  return { height: WORDS_LINE * Math.max(0, ...taken.map(({ line }) => line + 1)), content };
}

/** Where words stand on one of the lines below a bar. */
interface TakenLine {
  readonly line: number;
  readonly from: number;
  readonly to: number;
}

/** The first line on which a stretch meets none that is there. */
function freeLine(
  taken: readonly TakenLine[],
  { from, to }: Pick<TakenLine, 'from' | 'to'>,
): TakenLine {
  const met = taken.filter((other) => other.from < to && from < other.to);
  return { line: Math.max(-1, ...met.map(({ line }) => line)) + 1, from, to };
}

/** Intervals end before the figures of what is cut off. */
const INTERVALS = 84;
/** So many times the largest figure an interval may reach before it is cut off. */
const REACH = 2;

/** A dot between its bounds; where a bound of few pieces would stretch the scale for all, an arrow says how far it goes. */
export function intervals(plan: ChartPlan): Drawing {
  const { points } = plan;
  const ground = { scale: scaleOf(reached(points)), width: INTERVALS };
  const rows = points.map((point) => ({
    height: ROW,
    content: [nameAndFigure(point), ...intervalOf(point, ground)],
  }));
  return lying(plan, ground, rows);
}

/** Figures that the scale spans: all, but for upper bounds far beyond them. */
function reached(points: readonly Point[]): number[] {
  const values = sizes(points.map(({ value }) => value));
  const highs = sizes(points.map(({ high }) => high)).toSorted((one, other) => one - other);
  const middle = highs[Math.floor((highs.length - 1) / 2)] ?? 0;
  const most = Math.max(middle, REACH * Math.max(0, ...values));
  const lows = sizes(points.map(({ low }) => low));
  return [...values, ...lows, ...highs.map((high) => Math.min(high, most))];
}

const MIDDLE = BAR + 5;

function intervalOf({ value, low, high }: Point, ground: LyingScale): Markup[] {
  if (value === undefined) return [];
  const isCut = high !== undefined && high.size > ground.scale.high;
  const place = (size: number) => ({
    x: across(ground, Math.min(size, ground.scale.high)),
    y: MIDDLE,
  });
  const [from, to] = [place((low ?? value).size), place((high ?? value).size)];
  const ends = [from, ...(isCut ? [] : [to])].map(({ x }) =>
    stroke('end', { x, y: MIDDLE - 5 }, { x, y: MIDDLE + 5 }),
  );
  const line = [stroke('line', from, to), ...ends, dot(place(value.size), 4.5)];
  return isCut ? [...line, ...cutOff(high, to.x)] : line;
}

/** An arrow at the edge, and the figure that lies beyond it. */
function cutOff({ shown }: DrawnFigure, x: number): Markup[] {
  return [
    outline('on', { x, y: MIDDLE }, 'M0-5 8 0 0 5z'),
    words('mark beyond', { x: 100, y: MIDDLE + 4, anchor: 'end' }, shown),
  ];
}

const STRIP_DAYS = 14;

/** A bar from day to day; a mark stands for each day. */
export function strip(plan: ChartPlan): Drawing {
  const ground = { scale: dayScale(STRIP_DAYS), width: 100 };
  const rows = plan.points.map((point) => ({
    height: ROW,
    content: [nameAndFigure(point), bar('bar', stripEnds(point), ground)],
  }));
  return lying(plan, ground, rows);
}

/** From the beginning of the first day to the end of the last. */
function stripEnds({ low, high }: Point): BarEnds {
  const first = low?.size ?? 0;
  return { low: first, high: Math.max(first, (high?.size ?? 0) + 1) };
}

/** The rows below each other on the lines of their scale, whose marks stand at the bottom. */
function lying(plan: ChartPlan, ground: LyingScale, rows: readonly LyingRow[]): Drawing {
  const bottom = rows.reduce((sum, { height }) => sum + height, 0);
  const tops = rows.map((_, at) => rows.slice(0, at).reduce((sum, { height }) => sum + height, 0));
  const drawn = rows.map(
    ({ content }, at) => markup`<g class="row" transform="translate(0 ${tops[at]})">${content}</g>`,
  );
  return {
    height: bottom + SCALE_ROOM,
    content: lines([...groundLines(plan, ground, bottom), ...drawn]),
  };
}

function groundLines({ chart, markOf }: ChartPlan, ground: LyingScale, bottom: number): Markup[] {
  const mark = markOf(chart.value);
  const isDays = chart.shape === 'strip';
  const kept = isDays ? new Set(ground.scale.marks) : markedOf(ground, mark);
  return ground.scale.marks.flatMap((value) => {
    const x = across(ground, value);
    const line = stroke(value === 0 && !isDays ? 'zero' : 'grid', { x, y: 0 }, { x, y: bottom });
    const middle = isDays ? across(ground, value + 0.5) : x;
    return kept.has(value) ? [line, markBelow(mark(value), middle, bottom + 16)] : [line];
  });
}

function markBelow(text: string, x: number, y: number): Markup {
  const half = textWidth(text) / 2;
  const anchor: Anchor = x < half ? 'start' : x + half > 100 ? 'end' : 'middle';
  return words('mark', { x, y, anchor }, text);
}

/** The marks of a scale whose figures have room beside each other. */
function markedOf(ground: LyingScale, mark: (value: number) => string): ReadonlySet<number> {
  const { marks } = ground.scale;
  const apart = across(ground, marks[1] ?? 1) - across(ground, marks[0] ?? 0);
  const widest = Math.max(...marks.map((value) => textWidth(mark(value)))) + TEXT_GAP;
  const each = Math.ceil(widest / apart);
  return new Set(marks.filter((_, at) => at % each === 0));
}

/** The name is cut where it would meet the figure. */
function nameAndFigure({ label, value, count }: Point): Markup {
  const shown = value?.shown ?? '';
  const beside = count === undefined ? '' : `n = ${count.shown}`;
  const name = cutToRoom(label, 100 - textWidth(shown) - textWidth(beside) - 2 * TEXT_GAP);
  const rests = beside === '' ? '' : markup` <tspan class="mark">${beside}</tspan>`;
  return markup`${words('label', { x: 0, y: NAME_Y }, markup`${name}${rests}`)}${words('value', { x: 100, y: NAME_Y, anchor: 'end' }, shown)}`;
}
