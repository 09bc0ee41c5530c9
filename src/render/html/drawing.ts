/** The drawings of charts: across in percent and down in pixels, so that text keeps its size on any screen. */
import { type Markup, lines, markup } from './markup.ts';

/** One row of a chart. */
export interface Point {
  readonly label: string;
  /** Undefined where there is no figure. */
  readonly value: number | undefined;
  /** The figure as people see it. */
  readonly shown: string;
  /** Bounds of an interval. */
  readonly low: number | undefined;
  readonly high: number | undefined;
}

/** What is drawn, and how marks of the scale are written. */
export interface ChartPlan {
  readonly points: readonly Point[];
  readonly scale: Scale;
  readonly mark: (value: number) => string;
}

/** A drawing and how many pixels high it is. */
export interface Drawing {
  readonly height: number;
  readonly content: Markup;
}

const TOP = 18;
const PLOT = 168;
/** Marks of the scale stand in this much of the width, before the plot. */
const MARKS = 12;
const BELOW = 24;
/** Below months stands their year. */
const BELOW_MONTHS = 38;
const ROW = 38;
/** Intervals end before the figures at the right. */
const INTERVALS = 86;
/** More labels than these don't go beside each other on a small screen. */
const MOST_LABELS = 12;
/** Of labels longer than a month's, as days are, fewer. */
const LONGEST_BESIDE = 7;
const MOST_DAYS = 4;
const LONGEST_LABEL = 26;

/** How wide a column's place in the plot is, in percent, and where it begins. */
function slots(points: readonly Point[]): {
  readonly width: number;
  readonly at: (at: number) => number;
} {
  const width = (100 - MARKS) / points.length;
  return { width, at: (at) => MARKS + at * width };
}

/** Upright bars from the line of zero, side by side. */
export function columns(plan: ChartPlan): Drawing {
  const { points, scale } = plan;
  const slot = slots(points);
  const zero = upright(scale, 0);
  const bars = points.flatMap(({ value }, at) => {
    if (value === undefined) return [];
    const end = upright(scale, value);
    const height = Math.max(1, Math.abs(end - zero));
    return [
      markup`<rect class="bar" x="${inPercent(slot.at(at + 0.18))}" width="${inPercent(0.64 * slot.width)}" y="${pixels(Math.min(end, zero))}" height="${pixels(height)}"/>`,
    ];
  });
  return framed(plan, bars);
}

/** A line from row to row with a dot on each; it breaks where a figure is missing. */
export function course(plan: ChartPlan): Drawing {
  return framed(plan, coursed(plan));
}

/** The same between its limits. */
export function control(plan: ChartPlan): Drawing {
  const { points, scale } = plan;
  const slot = slots(points);
  const limits = points.flatMap(({ low, high }, at) =>
    [low, high].flatMap((limit) => {
      if (limit === undefined) return [];
      const y = pixels(upright(scale, limit));
      return [
        markup`<line class="limit" x1="${inPercent(slot.at(at))}" x2="${inPercent(slot.at(at + 1))}" y1="${y}" y2="${y}"/>`,
      ];
    }),
  );
  return framed(plan, [...limits, ...coursed(plan)]);
}

function coursed({ points, scale }: ChartPlan): Markup[] {
  const slot = slots(points);
  const spot = (at: number): { x: number; y: number } | undefined => {
    const value = points[at]?.value;
    return value === undefined ? undefined : { x: slot.at(at + 0.5), y: upright(scale, value) };
  };
  return points.flatMap((_, at) => {
    const [here, before] = [spot(at), spot(at - 1)];
    if (here === undefined) return [];
    const dot = markup`<circle class="dot" cx="${inPercent(here.x)}" cy="${pixels(here.y)}" r="3.5"/>`;
    if (before === undefined) return [dot];
    const line = markup`<line class="line" x1="${inPercent(before.x)}" y1="${pixels(before.y)}" x2="${inPercent(here.x)}" y2="${pixels(here.y)}"/>`;
    return [line, dot];
  });
}

/** Marks and labels around what stands in the plot. */
function framed({ points, scale, mark }: ChartPlan, drawn: readonly Markup[]): Drawing {
  const slot = slots(points);
  const isDays = points.some(({ label }) => label.length > LONGEST_BESIDE);
  const each = Math.ceil(points.length / (isDays ? MOST_DAYS : MOST_LABELS));
  const grid = scale.marks.map((value) => {
    const y = upright(scale, value);
    return markup`<line class="${value === 0 ? 'zero' : 'grid'}" x1="0" x2="100%" y1="${pixels(y)}" y2="${pixels(y)}"/><text class="mark" x="0" y="${pixels(y - 4)}">${mark(value)}</text>`;
  });
  const isMonths = points.every(({ label }) => MONTH.test(label));
  const labels = points.flatMap(({ label }, at) => {
    if (at % each !== 0) return [];
    const x = inPercent(slot.at(at + 0.5));
    return isMonths ? monthLabels(label, x, at === 0) : [labelBelow(label, x, 0)];
  });
  const height = TOP + PLOT + (isMonths ? BELOW_MONTHS : BELOW);
  return { height, content: lines([...grid, ...drawn, ...labels]) };
}

const MONTH = /^(\d{4})-(\d{2})$/;

/** The month, and below the first one and each January its year. */
function monthLabels(label: string, x: string, isFirst: boolean): Markup[] {
  const [, year = '', month = ''] = MONTH.exec(label) ?? [];
  return [labelBelow(month, x, 0), ...(isFirst || month === '01' ? [labelBelow(year, x, 1)] : [])];
}

function labelBelow(text: string, x: string, line: number): Markup {
  return markup`<text class="label" text-anchor="middle" x="${x}" y="${TOP + PLOT + 17 + line * 15}">${text}</text>`;
}

/** Lying bars from the line of zero, a row each, with name and figure above it. */
export function bars({ points, scale }: ChartPlan): Drawing {
  const zero = scale.at(0) * 100;
  const rows = points.map((point, at) => {
    const end = scale.at(point.value ?? 0) * 100;
    const bar = markup`<rect class="bar" x="${inPercent(Math.min(zero, end))}" width="${inPercent(Math.abs(end - zero))}" y="${at * ROW + 21}" height="8"/>`;
    const line = markup`<line class="zero" x1="${inPercent(zero)}" x2="${inPercent(zero)}" y1="${at * ROW + 18}" y2="${at * ROW + 32}"/>`;
    return markup`${nameAndFigure(point, at)}${point.value === undefined ? '' : bar}${line}`;
  });
  return { height: points.length * ROW, content: lines(rows) };
}

/** A dot between its bounds, a row each, with name and figure above it. */
export function intervals({ points, scale, mark }: ChartPlan): Drawing {
  const bottom = points.length * ROW;
  const grid = scale.marks.map((value, at) => {
    const x = inPercent(scale.at(value) * INTERVALS);
    const anchor = at === 0 ? 'start' : 'middle';
    return markup`<line class="${value === 0 ? 'zero' : 'grid'}" x1="${x}" x2="${x}" y1="0" y2="${bottom}"/><text class="mark" text-anchor="${anchor}" x="${x}" y="${bottom + 16}">${mark(value)}</text>`;
  });
  const rows = points.map(
    (point, at) => markup`${nameAndFigure(point, at)}${interval(point, scale, at)}`,
  );
  return { height: bottom + BELOW, content: lines([...grid, ...rows]) };
}

/** A bar from day to day, a row each, with name and figure above it; a mark stands for each day. */
export function strip({ points, scale, mark }: ChartPlan): Drawing {
  const bottom = points.length * ROW;
  const grid = scale.marks.map((value) => {
    const x = inPercent(scale.at(value) * 100);
    return markup`<line class="grid" x1="${x}" x2="${x}" y1="0" y2="${bottom}"/><text class="mark" x="${x}" y="${bottom + 16}">${mark(value)}</text>`;
  });
  const rows = points.map((point, at) => {
    const from = scale.at(point.low ?? 0) * 100;
    const to = scale.at((point.high ?? 0) + 1) * 100;
    const width = inPercent(Math.max(0, to - from));
    return markup`${nameAndFigure(point, at)}<rect class="bar" x="${inPercent(from)}" width="${width}" y="${at * ROW + 21}" height="8"/>`;
  });
  return { height: bottom + BELOW, content: lines([...grid, ...rows]) };
}

function interval({ value, low, high }: Point, scale: Scale, row: number): Markup {
  if (value === undefined) return markup``;
  const y = row * ROW + 26;
  const across = (figure: number): number => scale.at(figure) * INTERVALS;
  const [from, to] = [across(low ?? value), across(high ?? value)];
  const ends = [from, to].map(
    (x) =>
      markup`<line class="line" x1="${inPercent(x)}" x2="${inPercent(x)}" y1="${y - 5}" y2="${y + 5}"/>`,
  );
  return markup`<line class="line" x1="${inPercent(from)}" x2="${inPercent(to)}" y1="${y}" y2="${y}"/>${ends}<circle class="dot" cx="${inPercent(across(value))}" cy="${y}" r="4.5"/>`;
}

function nameAndFigure({ label, shown }: Point, row: number): Markup {
  return markup`<text class="label" x="0" y="${row * ROW + 15}">${cut(label)}</text><text class="value" text-anchor="end" x="100%" y="${row * ROW + 15}">${shown}</text>`;
}

function cut(label: string): string {
  const signs = Array.from(label);
  return signs.length <= LONGEST_LABEL ? label : `${signs.slice(0, LONGEST_LABEL - 1).join('')}…`;
}

function upright(scale: Scale, value: number): number {
  return TOP + PLOT * (1 - scale.at(value));
}

/** Two decimals are finer than any screen. */
function inPercent(value: number): string {
  return `${pixels(value)}%`;
}

function pixels(value: number): string {
  return String(Math.round(value * 100) / 100);
}

/** Marks from the lowest to the highest, evenly apart. */
interface Scale {
  readonly marks: readonly number[];
  /** Where a value lies, from 0 at the lowest mark to 1 at the highest. */
  readonly at: (value: number) => number;
}

const STEPS = [1, 2, 2.5, 5, 10] as const;
const MOST_STEPS = 5;

/** A scale over the values and zero, with at most six marks; from 0 to 1 where all are zero. */
export function scaleOf(values: readonly number[]): Scale {
  return scaleOver([0, ...values]);
}

/** A scale over the values alone, of which there is one at the least. */
export function scaleOver(values: readonly number[]): Scale {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const step = low === high ? 1 : stepFor(low, high);
  const first = Math.floor(low / step);
  const last = Math.max(first + 1, Math.ceil(high / step));
  const marks = Array.from({ length: last - first + 1 }, (_, at) => (first + at) * step);
  const span = (last - first) * step;
  return { marks, at: (value) => (value - first * step) / span };
}

/** A scale of whole days from 0 to the last one, that one too. */
export function dayScale(days: number): Scale {
  const marks = Array.from({ length: days }, (_, day) => day);
  return { marks, at: (value) => Math.min(Math.max(value, 0), days) / days };
}

/** The smallest round step that gets from low to high in five steps. */
function stepFor(low: number, high: number): number {
  const magnitude = 10 ** Math.floor(Math.log10((high - low) / MOST_STEPS));
  const fitting = STEPS.map((step) => step * magnitude).find(
    (step) => Math.ceil(high / step) - Math.floor(low / step) <= MOST_STEPS,
  );
  return fitting ?? 20 * magnitude;
}
