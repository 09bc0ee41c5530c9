/** What stands around upright drawings: the scale at the left, and names of rows below. */
import { type Markup, lines } from '../markup.ts';
import { type DrawnAt, stroke, textWidth, withinSides, words } from './marks.ts';
import type { ChartPlan, Drawing, Point } from './plan.ts';
import type { Scale } from './scale.ts';

/** Where the rows and the figures of an upright drawing lie. */
export interface Frame {
  readonly scale: Scale;
  /** Percent at which the rows begin; the scale's marks stand before. */
  readonly left: number;
  /** Percent that a row has. */
  readonly slot: number;
  /** Where a row begins, and by fractions what is in it. */
  readonly across: (row: number) => number;
  readonly down: (value: number) => number;
  readonly bottom: number;
}

const TOP = 20;
const PLOT = 168;
/** Room for what is said below a figure that is less than zero. */
const DIP = 22;
const NAMES_ROOM = 24;
const NAMES_LINE = 15;
/** The marks of a scale have this much at the least, so that charts beside each other begin alike. */
const LEAST_LEFT = 12;
const BESIDE = 2.5;

export function frameOf({ points, chart, markOf }: ChartPlan, scale: Scale): Frame {
  const left = roomForMarks(scale, markOf(chart.value));
  const slot = (100 - left) / points.length;
  const across = (row: number): number => left + row * slot;
  const bottom = TOP + PLOT + ((scale.marks[0] ?? 0) < 0 || scale.at(0) > 0 ? DIP : 0);
  return { scale, left, slot, across, down: (value) => TOP + PLOT * (1 - scale.at(value)), bottom };
}

function roomForMarks({ marks }: Scale, mark: (value: number) => string): number {
  return Math.max(LEAST_LEFT, ...marks.map((value) => textWidth(mark(value)) + 1));
}

/** The middle of a row, as high as a figure. */
export function placeIn(frame: Frame, row: number, value: number): DrawnAt {
  return { x: frame.across(row + 0.5), y: frame.down(value) };
}

/** Marks and names around what is drawn. */
export function framed(plan: ChartPlan, frame: Frame, drawn: readonly Markup[]): Drawing {
  const mark = plan.markOf(plan.chart.value);
  const isMonths = plan.points.every(({ label }) => MONTH.test(label));
  const names = isMonths ? monthNames(plan.points, frame) : rowNames(plan.points, frame);
  const height = frame.bottom + NAMES_ROOM + (isMonths ? NAMES_LINE : 0);
  return { height, content: lines([...scaleMarks(frame, mark), ...drawn, ...names]) };
}

/** Lines through the drawing with their figures above them, at the left. */
export function scaleMarks({ scale, down }: Frame, mark: (value: number) => string): Markup[] {
  return scale.marks.flatMap((value) => {
    const y = down(value);
    const line = stroke(value === 0 ? 'zero' : 'grid', { x: 0, y }, { x: 100, y });
    return [line, words('mark', { x: 0, y: y - 4 }, mark(value))];
  });
}

const LONGEST_NAME = 12;

/** The names of as many rows as have room, evenly apart. */
function rowNames(points: readonly Point[], frame: Frame): Markup[] {
  const names = points.map(({ label }) =>
    label.length > LONGEST_NAME ? `${label.slice(0, LONGEST_NAME - 1)}…` : label,
  );
  const each = everyHowMany(Math.max(...names.map(textWidth)), frame);
  // One that has to be drawn in at the side would meet the one before.
  const hasRoom = (name: string, at: number): boolean =>
    at === 0 || frame.across(at + 0.5) + textWidth(name) / 2 <= 100;
  return names.flatMap((name, at) =>
    at % each === 0 && hasRoom(name, at) ? [nameBelow(name, at, { frame })] : [],
  );
}

function everyHowMany(width: number, { slot }: Frame): number {
  return Math.ceil((width + BESIDE) / slot);
}

const MONTH = /^(\d{4})-(\d{2})$/;

/** The months, and below the first and each January its year; of many months the years alone. */
function monthNames(points: readonly Point[], frame: Frame): Markup[] {
  const months = points.map(({ label }) => MONTH.exec(label)?.[2] ?? '');
  const years = points.map(({ label }) => MONTH.exec(label)?.[1] ?? '');
  const hasRoom = everyHowMany(textWidth('00'), frame) === 1;
  const apart = everyHowMany(textWidth('0000') * 12, { ...frame, slot: frame.slot * 12 });
  const each = Math.max(1, Math.ceil(apart / 12));
  const isYear = (at: number): boolean =>
    months[at] === '01' && (Number(years[at]) - Number(years[0])) % each === 0;
  return points.flatMap((_, at) => [
    ...(hasRoom ? [nameBelow(months[at] ?? '', at, { frame })] : []),
    ...(isYear(at) || at === 0 ? [nameBelow(years[at] ?? '', at, { frame, line: 1 })] : []),
  ]);
}

function nameBelow(
  text: string,
  row: number,
  { frame, line = 0 }: { readonly frame: Frame; readonly line?: number },
): Markup {
  const place = withinSides(text, frame.across(row + 0.5), frame.bottom + 17 + line * NAMES_LINE);
  return words('label', place, text);
}
