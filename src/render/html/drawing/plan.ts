/** What drawings are made of: the rows of a chart with their figures, and what comes out. */
import type { Chart } from '../../../report/page.ts';
import type { Markup } from '../markup.ts';

/** A figure as it is drawn and as people see it. */
export interface DrawnFigure {
  readonly size: number;
  readonly shown: string;
}

type MaybeDrawn = DrawnFigure | undefined;

/** One row of a chart; a figure that it has not is undefined. */
export interface Point {
  readonly label: string;
  readonly value: MaybeDrawn;
  readonly low: MaybeDrawn;
  readonly high: MaybeDrawn;
  /** In the order in which they are drawn. */
  readonly parts: readonly MaybeDrawn[];
  readonly against: MaybeDrawn;
  readonly marks: readonly MaybeDrawn[];
  readonly count: MaybeDrawn;
  readonly across: MaybeDrawn;
  /** What it is called in the drawing, where it has to be named. */
  readonly named: string | undefined;
}

/** What is drawn, and how figures and columns are written in it. */
export interface ChartPlan {
  readonly chart: Chart;
  readonly points: readonly Point[];
  /** Head of the column of a key, with its unit. */
  readonly headOf: (key: string) => string;
  /** A mark of the scale of a column, as short as it is. */
  readonly markOf: (key: string) => (value: number) => string;
}

/** A drawing and how many pixels high it is. */
export interface Drawing {
  readonly height: number;
  readonly content: Markup;
}

/** Sizes of the figures that are there. */
export function sizes(figures: readonly MaybeDrawn[]): number[] {
  return figures.flatMap((figure) => (figure === undefined ? [] : [figure.size]));
}
