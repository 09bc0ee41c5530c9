/** Figures that are held against those of their like: what a look gathers, and how it measures. */
import type { Day, Entry, NamedBook } from '../../book.ts';

/** A figure of a record. */
export interface Figure {
  /** What it is of, in words that a finding can say; figures with the same words are alike. */
  readonly like: string;
  /** A narrower sort of the same, whose figures are held against each other where there are enough. */
  readonly sort?: string | undefined;
  /** Its size, in one unit for all that are alike; as near as a doubt needs it. */
  readonly size: number;
  /** Its day; empty for what a definition says from the first. */
  readonly day: Day;
  readonly path: readonly (string | number)[];
  /** The figure in words, as it is told and answered: `280.00`, `385 kWh`. */
  readonly text: () => string;
  /** Set on one that only shows what is usual: nothing is said of it. */
  readonly isShown?: true | undefined;
}

/** What gathering goes by. What is gathered rests on the ids that it asks for. */
export interface GatherScene {
  readonly book: NamedBook;
  readonly note: (figure: Figure) => void;
}

/** A figure with the record that it stands in. */
export interface FigureOf extends Figure {
  readonly record: Entry;
}

/** Figures that are alike, in the order of their files; a day is a number, 0 for none. */
export interface AlikeFigures {
  readonly sizes: readonly number[];
  readonly days: readonly number[];
}

/** What such figures come to: the middle one, and those between which nearly all are. */
export interface UsualRange {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** One that is far from the others. */
export interface Far {
  /** Its place among those that are alike. */
  readonly at: number;
  readonly usual: UsualRange;
}

/** How far from its like a figure may be. */
export interface Yardstick {
  readonly far: (alike: AlikeFigures) => readonly Far[];
  /** How it stands to what is usual: `10 times`, `180 °C above`. */
  readonly words: (size: number, usual: UsualRange) => string;
  /** Whether a point in the wrong place is what it finds. */
  readonly isByTimes?: true;
}
