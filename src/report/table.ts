/** The one shape that every report has and every renderer takes. */
import type { Decimal } from '../number/decimal.ts';
import type { Money } from '../number/money.ts';
import type { Summable } from '../number/summable.ts';
import type { Sheet } from './day/sheet.ts';

/**
 * What a column holds; it decides alignment, rounding and the JSON type.
 * - `text`, `id`, `date` (ISO), `flag` (true or false): JSON strings, booleans for flags
 * - `count`: a whole number, a JSON number
 * - `money`: a sum of what was booked, with the currency's decimals wherever it is written
 * - `rate`: money for one of something, a ratio of sums; rounded only where it is shown
 * - `quantity`: exact decimal in the column's or the row's unit; shown at `places` (default 2)
 * - `fraction`: a share of 1 as exact decimal; shown as a percentage with one decimal
 */
export type ColumnType =
  'text' | 'id' | 'date' | 'flag' | 'count' | 'money' | 'rate' | 'quantity' | 'fraction';

export interface Column {
  /** Stable key in camelCase: the JSON key and the CSV head. */
  readonly key: string;
  /** Head in text, markdown and pages. */
  readonly title: string;
  readonly type: ColumnType;
  /** Unit of every figure of the column, where there is one: `kWh`, `g`. */
  readonly unit?: string;
  /** Decimals shown of a quantity or a rate; a rate defaults to the currency's minor digits. */
  readonly places?: number;
  /** Draws a bar beside the figure in text: the longest stands for the largest value. */
  readonly bar?: boolean;
  /** Key of the figure of the same kind that is marked on each row's bar: what it must stay under. */
  readonly barLimit?: string;
  /** Said below the row in text when the line is too short for all columns, the highest number first. */
  readonly drop?: number;
  /** Whether it names what the row is of, or says when: it needs no head below the row, and is not soon narrowed. */
  readonly isName?: boolean;
  /** Key of the column that has the unit of each row's figure. */
  readonly unitFrom?: string;
  /** Only in json and csv; text and markdown leave it out. */
  readonly dataOnly?: boolean;
  /** Key of the column that says how far down a tree a row is; people see it by a branch before the text. */
  readonly stepsFrom?: string;
  /** What a figure that is no sum is worked out from: `Margin ÷ Net`. */
  readonly from?: string;
}

/** A column whose key is one of the things under which such a line has a cell. */
export type ColumnOf<T> = Column & {
  readonly key: { [K in keyof T]: T[K] extends Cell | undefined ? K : never }[keyof T] & string;
};

/** What a column of a row is the sum of: where the one is seen, so are the others, and side by side. */
export interface AddedUp {
  /** The key of the column that is the total. */
  readonly total: string;
  readonly plus: readonly string[];
  readonly less?: readonly string[];
}

/** A missing figure is null: an empty cell in text and csv, null in JSON. */
export type Cell = string | number | boolean | Decimal | Money | null;

/** Cells by the keys of their columns; one that isn't there is missing. */
export type Row = Readonly<Record<string, Cell | undefined>>;

/** Ids by row, gathered when they are first asked for. */
export type Behind = () => readonly (readonly string[])[] | undefined;

/** A commit as it was asked for, and its id. */
export interface BookCommit {
  readonly name: string;
  readonly id: string;
}

export interface Table {
  /** The report's name, as the command. */
  readonly report: string;
  /** A heading for people. */
  readonly title: string;
  readonly studio: string;
  readonly asOf: string;
  readonly currency: string;
  /** The currency's minor digits (ISO 4217). */
  readonly minorDigits: number;
  /** The commit whose book it is, where it is not the one on the disk. */
  readonly revision?: BookCommit | undefined;
  /** A digest of the files that the book was read from, which pages name where it is of no commit. */
  readonly digest?: (() => string) | undefined;
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  readonly totals?: Row;
  /** Which columns add up to which, innermost first. */
  readonly sums?: readonly AddedUp[];
  /** What text has in place of the columns where a row of them would take more than two lines. */
  readonly narrow?: Pick<Table, 'columns' | 'sums'>;
  /** Sentences below the table: estimates, cautions, what was left out. */
  readonly notes: readonly string[];
  /**
   * Key of a text column by which the rows are parted: rows of one part stand together, and what
   * people read gives each part a heading in place of the column.
   */
  readonly partedBy?: string;
  /** Whether a page has a box before each row, to be ticked on paper. */
  readonly toTick?: boolean;
  /** Pictures beside the words of a column, in the order of the rows; only pages have them. */
  readonly pictures?: { readonly column: string; readonly of: readonly (Picture | undefined)[] };
  /** Whether people are spared the rows whose figures are all zero; data formats have every row. */
  readonly leavesOutZeros?: boolean;
  /**
   * Ids of the records behind each row, in the order of the rows; pages lead from a figure to them. Nothing
   * else asks for them, and of a long book they are many.
   */
  readonly behind?: Behind;
  /** Records that only some of the figures rest on, in the columns of these keys, beside those behind all. */
  readonly further?: {
    readonly columns: readonly string[];
    /** What they are: `To date, these too`. */
    readonly words: string;
    readonly behind: Behind;
  };
  /**
   * What each record brings to figures, by the keys of the columns, in the order of the rows: they add up to
   * the figure. Undefined where that isn't known record by record.
   */
  readonly brought?: Readonly<Record<string, () => readonly RecordFigures[]>>;
  /** Records of `behind` that a page adds up in one line, since they are many and long ago. */
  readonly earlier?: EarlierRecords;
  /** Which other rows a row is reckoned from, in the order of the rows. */
  readonly reckoned?: readonly (Reckoning | undefined)[];
  /** How rows are set out for people, in the order of the rows. */
  readonly emphases?: readonly Emphasis[];
  /** What people read in place of the rows, which are for programs alone then. */
  readonly sheet?: Sheet;
  /** Whether a page has the notes above the table, and the first before all figures: what has to be read before them. */
  readonly notesFirst?: boolean;
  /** Another table that people read below it; its rows are among those of this one for programs. */
  readonly below?: Table;
  /** What matters, said to people before the figures; programs have the rows. */
  readonly verdict?: Verdict | undefined;
  /** Which rows ask for something, told by the word in one of their cells; weight and tint only add to it. */
  readonly alerts?: RowAlerts | undefined;
}

/** What matters in a report: one sentence, and up to three figures of its rows or totals. */
export interface Verdict {
  readonly sentence: string;
  /** The most important first. */
  readonly figures: readonly VerdictFigure[];
}

/** A figure as its column would show it. */
export interface VerdictFigure {
  readonly label: string;
  readonly column: Pick<Column, 'type' | 'unit' | 'places'>;
  readonly cell: Cell;
}

/**
 * How much a row asks for.
 * - `now`: something is to be done or is lost: to order, late, below cost, out of line
 * - `soon`: to keep an eye on
 */
export type Alert = 'now' | 'soon';

/** The alerts of rows, in their order, and the key of the column whose words say why. */
export interface RowAlerts {
  readonly column: string;
  readonly of: readonly (Alert | undefined)[];
}

/** A picture as a page has it in itself. */
export interface Picture {
  readonly type: 'image/jpeg' | 'image/png' | 'image/webp';
  /** In base64. */
  readonly data: string;
  /** What is on it, for who can't see it. */
  readonly alt: string;
}

/** Figures by the ids of records. */
export type RecordFigures = ReadonlyMap<string, Summable> | undefined;

/** Records before a day, in the order of the rows, and by column what they bring together, which `brought` leaves out. */
export interface EarlierRecords {
  readonly before: string;
  readonly behind: Behind;
  readonly brought: Readonly<Record<string, () => readonly Summable[]>>;
}

/** How a row is set out for people. */
export interface Emphasis {
  /** Whether it is shown though its figures are all zero. */
  readonly kept: boolean | undefined;
  /** Whether a page has it in bold; undefined where that goes by its adding up others. */
  readonly strong: boolean | undefined;
}

/** How a row comes out of others of its table, by their numbers from 0. */
export interface Reckoning {
  readonly plus: readonly number[];
  readonly less: readonly number[];
  /** Rows that it is made of in another way than by adding up. */
  readonly of: readonly number[];
  /** In which way, or what else it goes by. */
  readonly words: string | undefined;
}

/** Whose book it is, of which day and in which currency. */
export type TableHead = Pick<
  Table,
  'studio' | 'asOf' | 'revision' | 'digest' | 'currency' | 'minorDigits'
>;
