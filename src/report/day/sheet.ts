/** A page of labelled lines: what a report says in sentences, on a terminal on one screen. */

/** One line of the page; a renderer decides how much of the list there is room for. */
export interface SheetLine {
  /** Stands at the margin: `Ready to sell`. */
  readonly label: string;
  /** Lines of one group stand together. */
  readonly group: number;
  /** What is said first, whatever room there is; without a full stop. */
  readonly lead: string;
  /** More of the same, the most important first. */
  readonly list: readonly string[];
  /** The list in fewer words, item by item, for where not even its first one has room. */
  readonly brief?: readonly string[];
  /** Draws a bar: how much of a whole, 1 being full. */
  readonly share?: number;
  /** The lead is a command, to be copied: it is never cut, and no full stop is put after it. */
  readonly bare?: boolean;
  /** What a page lists in place of the list: all there is, one by one. */
  readonly items?: readonly SheetItem[];
  /** The page leads with it, so that all of it is said, with weight. */
  readonly isFirst?: boolean;
}

/** One thing of a line, and the row of the table that it is told from. */
export interface SheetItem {
  readonly text: string;
  readonly row: number;
}

/** What a page leads with: a sentence that is never cut, and the command that goes with it. */
export interface SheetFirst {
  readonly label: string;
  readonly sentence: string;
  readonly command?: string;
}

/** A page with its title. */
export interface Sheet {
  readonly title: string;
  readonly first?: SheetFirst | undefined;
  readonly lines: readonly SheetLine[];
}
