/** Drawings that go along from row to row: columns, courses, and courses between limits. */
import type { Markup } from '../markup.ts';
import { type Frame, frameOf, framed, placeIn } from './frame.ts';
import { type DrawnAt, box, dot, outline, stroke } from './marks.ts';
import { type WantedWords, placedWords } from './placed-words.ts';
import { type ChartPlan, type Drawing, type DrawnFigure, type Point, sizes } from './plan.ts';
import { scaleOf, scaleOver } from './scale.ts';

/** Upright bars from the line of zero; before each that of what it is held against. */
export function columns(plan: ChartPlan): Drawing {
  const { points, chart } = plan;
  const frame = frameOf(plan, scaleOf(sizes(points.flatMap((each) => [each.value, each.against]))));
  const isBeside = chart.against !== undefined;
  const drawn = points.flatMap(({ value, against }, at) => [
    ...column('bar against', against, { frame, from: at + 0.08, to: at + 0.42 }),
    ...column('bar', value, { frame, from: at + (isBeside ? 0.48 : 0.18), to: at + 0.82 }),
  ]);
  // The lowest of several gains is among taller columns.
  const ofColumns = ends(points, frame).filter(({ y, isBelow }) => !isBelow || y > frame.down(0));
  const said = placedWords(ofColumns, { dots: [], height: frame.bottom });
  return framed(plan, frame, [...drawn, ...said]);
}

function column(
  kind: string,
  figure: DrawnFigure | undefined,
  { frame, from, to }: { readonly frame: Frame; readonly from: number; readonly to: number },
): Markup[] {
  if (figure === undefined || figure.size === 0) return [];
  const [zero, end] = [frame.down(0), frame.down(figure.size)];
  const sides = { from: frame.across(from), to: frame.across(to) };
  return [box(kind, { ...sides, y: Math.min(zero, end), height: Math.abs(end - zero) })];
}

/** What is said in the drawing itself: the highest figure, and the lowest below it. */
function ends(points: readonly Point[], frame: Frame): WantedWords[] {
  const known = points.flatMap(({ value }, at) => (value === undefined ? [] : [{ value, at }]));
  const sorted = known.toSorted((one, other) => other.value.size - one.value.size);
  const said = (each: (typeof known)[number]): WantedWords => ({
    ...placeIn(frame, each.at, each.value.size),
    text: each.value.shown,
  });
  return [
    ...sorted.slice(0, 1).map(said),
    ...sorted
      .slice(1)
      .slice(-1)
      .map((each) => ({ ...said(each), isBelow: true })),
  ];
}

/** A line from row to row with a dot on each; it breaks where a figure is missing. */
export function course(plan: ChartPlan): Drawing {
  const { points } = plan;
  const frame = frameOf(plan, scaleOf(sizes(points.map(({ value }) => value))));
  const dots = dotsIn(points, frame);
  const said = placedWords(ends(points, frame), { dots, height: frame.bottom });
  return framed(plan, frame, [...coursed(points, frame), ...said]);
}

/** The same between limits; what is out of line has a mark of its own and its name. */
export function control(plan: ChartPlan): Drawing {
  const { points } = plan;
  const all = points.flatMap(({ value, low, high }) => [value, low, high]);
  const frame = frameOf(plan, scaleOver([...sizes(all), ...(sizes(all).length === 0 ? [0] : [])]));
  const named = points.flatMap(({ value, named }, at) =>
    value === undefined || named === undefined
      ? []
      : [{ ...placeIn(frame, at, value.size), text: named }],
  );
  const said = placedWords(named, { dots: named, height: frame.bottom });
  const out = named.map((place) => outline('out', place, 'M0-7 7 0 0 7-7 0z'));
  return framed(plan, frame, [
    ...limits(points, frame),
    ...coursed(points, frame),
    ...out,
    ...said,
  ]);
}

function limits(points: readonly Point[], frame: Frame): Markup[] {
  return (['low', 'high'] as const).flatMap((side) =>
    points.flatMap((point, at) => {
      const limit = point[side];
      if (limit === undefined) return [];
      const [from, to] = [frame.across(at), frame.across(at + 1)];
      const y = frame.down(limit.size);
      const before = points[at - 1]?.[side];
      const step =
        before && stroke('step', { x: from, y: frame.down(before.size) }, { x: from, y });
      return [...(step ? [step] : []), stroke('limit', { x: from, y }, { x: to, y })];
    }),
  );
}

function coursed(points: readonly Point[], frame: Frame): Markup[] {
  return points.flatMap((_, at) => {
    const [here, before] = [dotAt(points, frame, at), dotAt(points, frame, at - 1)];
    if (here === undefined) return [];
    return [...(before === undefined ? [] : [stroke('line', before, here)]), dot(here, 3.5)];
  });
}

function dotsIn(points: readonly Point[], frame: Frame): DrawnAt[] {
  return points.flatMap((_, at) => dotAt(points, frame, at) ?? []);
}

function dotAt(points: readonly Point[], frame: Frame, at: number): DrawnAt | undefined {
  const value = points[at]?.value;
  return value && placeIn(frame, at, value.size);
}
