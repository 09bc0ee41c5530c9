/** The columns that a page shows of a table: names in place of ids, money first where few are in sight, none empty. */
import { plainly } from '../paint.ts';
import type { Column, ColumnType, Table } from '../../report/table.ts';
import { type ShownColumn, isFigure, isZero, shownTable } from '../shown.ts';

/** A column of a page. */
export interface PageColumn extends ShownColumn {
  /** Ids that stand small beside the names of rows. */
  readonly ids?: readonly string[];
  /** The classes of its cells. */
  readonly look: string;
  /** The rows whose figure is exactly nothing, and seen as a dash. */
  readonly zeros: ReadonlySet<number>;
  /** Whether columns change places on a phone, so that money comes first. */
  readonly isTurned: boolean;
}

const LOOKS: Readonly<Record<ColumnType, string>> = {
  text: 'text',
  id: 'id',
  date: 'date',
  flag: 'flag',
  count: 'figure',
  money: 'figure',
  rate: 'figure',
  quantity: 'figure',
  fraction: 'figure',
};

/** The classes of columns by how early they come on a phone. */
const RANKS = ['', ' lead', ' money', ''];

/**
 * What people see of a page's table. The name of what a row is about heads the row in place of its id,
 * which stands beside it; a column without a word, or of parts of a sum that are all zero, is left out.
 */
export function pageColumns(table: Table): PageColumn[] {
  const [first, ...others] = shownTable(table, plainly);
  if (first === undefined) return [];
  const names =
    first.column.type === 'id' ? others.find(({ column }) => column.key === 'name') : undefined;
  const kept = others.filter((each) => each !== names && !hasNothing(table, each));
  const all = [names ? headedByName(first, names) : first, ...kept];
  const ranks = all.map(({ column }, at) => (at === 0 ? 0 : phoneRank(table, column)));
  const hasMoney = all.some(({ column }) => column.type === 'money' || column.type === 'rate');
  const isTurned = hasMoney && ranks.some((rank, at) => rank < (ranks[at - 1] ?? rank));
  return all.map((shown, at) => withLook(table, shown, isTurned ? ranks[at] : undefined));
}

function withLook(table: Table, shown: NamedColumn, rank: number | undefined): PageColumn {
  const { key, type } = shown.column;
  const alert = table.alerts?.column === key ? ' alert' : '';
  const look = `${LOOKS[type]}${RANKS[rank ?? 0]}${alert}`;
  const zeros = [...table.rows.keys()].filter((at) => isZero(table.rows[at]?.[key] ?? null));
  // Where rows of zeros are left out, those that stay are meant: boxes of a form.
  const dashed = table.leavesOutZeros === true ? [] : zeros;
  return { ...shown, look, zeros: new Set(dashed), isTurned: rank !== undefined };
}

type NamedColumn = Omit<PageColumn, 'look' | 'zeros' | 'isTurned'>;

/** Names, and ids only where there is no name. */
function headedByName(ids: ShownColumn, names: ShownColumn): NamedColumn {
  return {
    ...names,
    head: ids.head,
    total: ids.total,
    cells: names.cells.map((name, at) => (name === '' ? (ids.cells[at] ?? '') : name)),
    ids: names.cells.map((name, at) => (name === '' ? '' : (ids.cells[at] ?? ''))),
  };
}

function hasNothing(table: Table, { column, cells, total }: ShownColumn): boolean {
  if (table.pictures?.column === column.key) return false;
  if (cells.every((text) => text === '')) return total === '';
  const isPart = table.sums?.some(
    ({ plus, less = [] }) =>
      plus.length + less.length > 1 && [...plus, ...less].includes(column.key),
  );
  return isPart === true && table.rows.every((row) => isZero(row[column.key] ?? null));
}

/** What money adds up to and what a row asks for, then other money. */
function phoneRank({ sums, alerts }: Table, { key, type }: Column): number {
  if (alerts?.column === key) return 1;
  if (type !== 'money' && type !== 'rate') return 3;
  return sums === undefined || sums.some(({ total }) => total === key) ? 1 : 2;
}

const PAPER_POINTS = 512;
const POINTS_OF_SIGN = 5;
const POINTS_BETWEEN = 8;
const LONGEST_LINE = 22;

/** Whether the columns are wider than an upright sheet of paper when they are set in 8 points. */
export function isWide(columns: readonly PageColumn[]): boolean {
  const points = columns.map((each) => paperSigns(each) * POINTS_OF_SIGN + POINTS_BETWEEN);
  return points.reduce((sum, width) => sum + width, 0) > PAPER_POINTS;
}

/** Figures are never broken; texts go on in the next line. */
function paperSigns(shown: PageColumn): number {
  const texts = longest([...shown.cells, shown.total]);
  const width = isFigure(shown.column) ? texts : Math.min(texts, LONGEST_LINE);
  return Math.max(width, longest(shown.head.split(' ')));
}

function longest(texts: readonly string[]): number {
  return texts.reduce((length, text) => Math.max(length, text.length), 0);
}

/** Signs of the widest figure, or of the longest word above one. */
export function figureSigns(columns: readonly PageColumn[]): number {
  return Math.max(4, ...columns.filter(({ column }) => isFigure(column)).map(paperSigns));
}
