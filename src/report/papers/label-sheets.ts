/** Label sheets by their dimensions: where each label is, in millimetres. */
import type { OwnLabelSheet } from '../../book.ts';
import type { LabelSheet } from './paper.ts';

/** Sizes of paper, in millimetres: ISO 216, and 8.5 by 11 inches. */
export const PAPER_SIZES = {
  A4: { width: 210, height: 297 },
  Letter: { width: 215.9, height: 279.4 },
} as const;

type Dimensions = Omit<LabelSheet, 'name' | 'left' | 'top' | 'down'>;

/** The labels are in the middle of the paper, as they are on most sheets. */
function centred(sheet: Dimensions): LabelSheet {
  const { paper, columns, rows, width, height, across } = sheet;
  const room = PAPER_SIZES[paper];
  return {
    ...sheet,
    name: `${paper}-${columns}x${rows}`,
    left: (room.width - columns * width - (columns - 1) * across) / 2,
    top: (room.height - rows * height) / 2,
    down: 0,
  };
}

const INCH = 25.4;

/** Common sheets (common practice: measured widths and gaps of blank sheets; measure your own before a large run). */
const COMMON_SHEETS: readonly LabelSheet[] = [
  centred({ paper: 'A4', columns: 5, rows: 13, width: 38.1, height: 21.2, across: 2.5 }),
  centred({ paper: 'A4', columns: 3, rows: 8, width: 63.5, height: 33.9, across: 2.5 }),
  centred({ paper: 'A4', columns: 3, rows: 7, width: 63.5, height: 38.1, across: 2.5 }),
  centred({ paper: 'A4', columns: 2, rows: 7, width: 99.1, height: 38.1, across: 2.5 }),
  centred({
    paper: 'Letter',
    columns: 4,
    rows: 20,
    width: 1.75 * INCH,
    height: 0.5 * INCH,
    across: 0.3 * INCH,
  }),
  centred({
    paper: 'Letter',
    columns: 3,
    rows: 10,
    width: 2.625 * INCH,
    height: INCH,
    across: INCH / 8,
  }),
  centred({
    paper: 'Letter',
    columns: 2,
    rows: 5,
    width: 4 * INCH,
    height: 2 * INCH,
    across: (3 * INCH) / 16,
  }),
];

/** All sheets that a studio can name, its own first. */
export function labelSheets(own: readonly OwnLabelSheet[] = []): LabelSheet[] {
  return [...own.map(ownSheetOf), ...COMMON_SHEETS];
}

function ownSheetOf({ name, paper, columns, rows, ...sizes }: OwnLabelSheet): LabelSheet {
  const { width, height, left, top, across, down } = sizes;
  return {
    ...{ name, paper, columns, rows },
    ...{ width: width.toNumber(), height: height.toNumber() },
    ...{ left: left.toNumber(), top: top.toNumber() },
    ...{ across: across?.toNumber() ?? 0, down: down?.toNumber() ?? 0 },
  };
}

/** Millimetres that measures may be off by, each rounded to a tenth. */
const SLACK = 0.5;

/** Whether all labels of a sheet are on the paper. */
export function isOnPaper({ paper, columns, rows, ...sheet }: LabelSheet): boolean {
  const { width, height } = PAPER_SIZES[paper];
  const right = sheet.left + columns * sheet.width + (columns - 1) * sheet.across;
  const bottom = sheet.top + rows * sheet.height + (rows - 1) * sheet.down;
  return right <= width + SLACK && bottom <= height + SLACK;
}
