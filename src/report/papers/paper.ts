/** A paper that goes out of the door, before it is laid out: all its texts are as they will be printed. */

/** A head with what belongs to it: `Date`, `30 June 2026`. */
interface PaperFact {
  readonly head: string;
  readonly text: string;
}

interface PaperColumn {
  readonly head: string;
  readonly isFigure: boolean;
}

/** What is listed on it. */
export interface PaperTable {
  readonly caption: string;
  readonly columns: readonly PaperColumn[];
  readonly rows: readonly (readonly string[])[];
}

/** A line below the table, such as a total. */
export interface PaperSum {
  readonly head: string;
  readonly amount: string;
  readonly isTotal?: boolean;
}

/** Whom it is for. */
export interface Addressee {
  /** The word above: `To`. */
  readonly head: string;
  readonly lines: readonly string[];
  /** Lines that are left open, to be filled in by hand. */
  readonly open: number;
}

/** A sheet, or several, of one paper. */
export interface Paper {
  /** Of BCP 47, as phrases say it. */
  readonly language: string;
  readonly title: string;
  readonly studio: string;
  readonly letterhead: readonly string[];
  readonly to?: Addressee;
  readonly facts: readonly PaperFact[];
  readonly table?: PaperTable;
  readonly sums?: readonly PaperSum[];
  /** Paragraphs below. */
  readonly texts: readonly string[];
  /** A line to sign on for each, with who signs. */
  readonly signatures?: readonly string[];
}

/** Where labels are on a sheet, in millimetres. */
export interface LabelSheet {
  readonly name: string;
  readonly paper: 'A4' | 'Letter';
  readonly columns: number;
  readonly rows: number;
  readonly width: number;
  readonly height: number;
  /** From the edges of the paper to the first label. */
  readonly left: number;
  readonly top: number;
  /** Gaps between labels. */
  readonly across: number;
  readonly down: number;
}

/** What is on one label. */
export interface Label {
  readonly name: string;
  /** Below the name: the glaze, that it is a second. */
  readonly more: string;
  readonly price: string;
  /** That it is not for food or drink; never cut off for want of room. */
  readonly caution: string;
  /** What it can be followed by: the mark on the foot, the lot. */
  readonly number: string;
  readonly care: readonly string[];
}

/** Labels for sheets of one size. */
export interface LabelPaper {
  readonly language: string;
  readonly title: string;
  readonly studio: string;
  readonly sheet: LabelSheet;
  /** How many labels of the first sheet are used already. */
  readonly used: number;
  readonly labels: readonly Label[];
}
