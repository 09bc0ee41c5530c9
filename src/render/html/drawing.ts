/** The drawings of charts: across in percent and down in pixels, so that text keeps its size on any screen. */
import { markup, lines, type Markup } from './markup.ts';
import type { Scale } from './scale.ts';

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
export interface Plan {
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
export function columns(plan: Plan): Drawing {
  const { points, scale } = plan;
  const slot = slots(points);
  const zero = upright(scale, 0);
  const bars = points.flatMap(({ value }, at) => {
    if (value === undefined) return [];
    const end = upright(scale, value);
    const height = Math.max(1, Math.abs(end - zero));
    return [
      markup`<rect class="bar" x="${percent(slot.at(at + 0.18))}" width="${percent(0.64 * slot.width)}" y="${pixels(Math.min(end, zero))}" height="${pixels(height)}"/>`,
    ];
  });
  return framed(plan, bars);
}

/** A line from row to row with a dot on each; it breaks where a figure is missing. */
export function course(plan: Plan): Drawing {
  const { points, scale } = plan;
  const slot = slots(points);
  const spot = (at: number): { x: number; y: number } | undefined => {
    const value = points[at]?.value;
    return value === undefined ? undefined : { x: slot.at(at + 0.5), y: upright(scale, value) };
  };
  const marks = points.flatMap((_, at) => {
    const [here, before] = [spot(at), spot(at - 1)];
    if (here === undefined) return [];
    const dot = markup`<circle class="dot" cx="${percent(here.x)}" cy="${pixels(here.y)}" r="3.5"/>`;
    if (before === undefined) return [dot];
    const line = markup`<line class="line" x1="${percent(before.x)}" y1="${pixels(before.y)}" x2="${percent(here.x)}" y2="${pixels(here.y)}"/>`;
    return [line, dot];
  });
  return framed(plan, marks);
}

/** Marks and labels around what stands in the plot. */
function framed({ points, scale, mark }: Plan, drawn: readonly Markup[]): Drawing {
  const slot = slots(points);
  const each = Math.ceil(points.length / MOST_LABELS);
  const grid = scale.marks.map((value) => {
    const y = upright(scale, value);
    return markup`<line class="${value === 0 ? 'zero' : 'grid'}" x1="0" x2="100%" y1="${pixels(y)}" y2="${pixels(y)}"/><text class="mark" x="0" y="${pixels(y - 4)}">${mark(value)}</text>`;
  });
  const isMonths = points.every(({ label }) => MONTH.test(label));
  const labels = points.flatMap(({ label }, at) => {
    if (at % each !== 0) return [];
    const x = percent(slot.at(at + 0.5));
    return isMonths ? monthLabels(label, x, at === 0) : [below(label, x, 0)];
  });
  const height = TOP + PLOT + (isMonths ? BELOW_MONTHS : BELOW);
  return { height, content: lines([...grid, ...drawn, ...labels]) };
}

const MONTH = /^(\d{4})-(\d{2})$/;

/** The month, and below the first one and each January its year. */
function monthLabels(label: string, x: string, isFirst: boolean): Markup[] {
  const [, year = '', month = ''] = MONTH.exec(label) ?? [];
  return [below(month, x, 0), ...(isFirst || month === '01' ? [below(year, x, 1)] : [])];
}

function below(text: string, x: string, line: number): Markup {
  return markup`<text class="label" text-anchor="middle" x="${x}" y="${TOP + PLOT + 17 + line * 15}">${text}</text>`;
}

/** Lying bars from the line of zero, a row each, with name and figure above it. */
export function bars({ points, scale }: Plan): Drawing {
  const zero = scale.at(0) * 100;
  const rows = points.map((point, at) => {
    const end = scale.at(point.value ?? 0) * 100;
    const bar = markup`<rect class="bar" x="${percent(Math.min(zero, end))}" width="${percent(Math.abs(end - zero))}" y="${at * ROW + 21}" height="8"/>`;
    const line = markup`<line class="zero" x1="${percent(zero)}" x2="${percent(zero)}" y1="${at * ROW + 18}" y2="${at * ROW + 32}"/>`;
    return markup`${named(point, at)}${point.value === undefined ? '' : bar}${line}`;
  });
  return { height: points.length * ROW, content: lines(rows) };
}

/** A dot between its bounds, a row each, with name and figure above it. */
export function intervals({ points, scale, mark }: Plan): Drawing {
  const bottom = points.length * ROW;
  const grid = scale.marks.map((value, at) => {
    const x = percent(scale.at(value) * INTERVALS);
    const anchor = at === 0 ? 'start' : 'middle';
    return markup`<line class="${value === 0 ? 'zero' : 'grid'}" x1="${x}" x2="${x}" y1="0" y2="${bottom}"/><text class="mark" text-anchor="${anchor}" x="${x}" y="${bottom + 16}">${mark(value)}</text>`;
  });
  const rows = points.map((point, at) => markup`${named(point, at)}${interval(point, scale, at)}`);
  return { height: bottom + BELOW, content: lines([...grid, ...rows]) };
}

function interval({ value, low, high }: Point, scale: Scale, row: number): Markup {
  if (value === undefined) return markup``;
  const y = row * ROW + 26;
  const across = (figure: number): number => scale.at(figure) * INTERVALS;
  const [from, to] = [across(low ?? value), across(high ?? value)];
  const ends = [from, to].map(
    (x) =>
      markup`<line class="line" x1="${percent(x)}" x2="${percent(x)}" y1="${y - 5}" y2="${y + 5}"/>`,
  );
  return markup`<line class="line" x1="${percent(from)}" x2="${percent(to)}" y1="${y}" y2="${y}"/>${ends}<circle class="dot" cx="${percent(across(value))}" cy="${y}" r="4.5"/>`;
}

function named({ label, shown }: Point, row: number): Markup {
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
function percent(value: number): string {
  return `${pixels(value)}%`;
}

function pixels(value: number): string {
  return String(Math.round(value * 100) / 100);
}
