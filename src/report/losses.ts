/** Losses: what came out broken or flawed, by anything that might be to blame. */
import type { DaysUpTo } from '../among.ts';
import type { Book } from '../book.ts';
import type { LossGroup } from '../groups.ts';
import { sentences } from '../in-words.ts';
import { once } from '../once.ts';
import type { Flows } from '../reckon/flows.ts';
import {
  isFirstFiring,
  lossFacts,
  lossRows,
  lossTotal,
  type LossRow,
} from '../reckon/kilns/losses.ts';
import { broughtByParts } from './brought.ts';
import { cellsOf, spanInWords, tableHead, withRows } from './head.ts';
import { LOSS_TITLES, inOrderOfGroups, nameOfGroup } from './loss-words.ts';
import { INTERVAL, OUTCOMES, lossParts, productLossesTable } from './product-losses.ts';
import type { ColumnOf, Table } from './table.ts';
import { firingLossVerdict, groupLossVerdict } from './verdicts/losses.ts';

const GROUPED: readonly ColumnOf<LossLine>[] = [
  { key: 'in', title: 'In', type: 'count' },
  { key: 'first', title: 'First', type: 'count', drop: 4 },
];
const FAULTS: readonly ColumnOf<LossLine>[] = [
  { key: 'faults', title: 'Faults', type: 'count' },
  { key: 'faultRate', title: 'Rate', type: 'fraction', bar: true, from: 'Faults ÷ In' },
];
const OUTCOME_COLUMNS: readonly ColumnOf<LossLine>[] = [
  { key: 'second', title: 'Second', type: 'count' },
  { key: 'lost', title: 'Lost', type: 'count' },
];
const BOUNDS: readonly ColumnOf<LossLine>[] = [
  { key: 'low', title: 'Low', type: 'fraction', drop: 2, from: INTERVAL },
  { key: 'high', title: 'High', type: 'fraction', drop: 2, from: INTERVAL },
];

function lossColumns(by: LossGroup): ColumnOf<LossLine>[] {
  if (by === 'cause')
    return [...groupColumns(by), ...GROUPED, ...FAULTS, ...BOUNDS, ...OUTCOME_COLUMNS];
  return [
    ...groupColumns(by),
    ...GROUPED,
    ...OUTCOME_COLUMNS,
    { key: 'lossRate', title: 'Loss rate', type: 'fraction', bar: true, from: 'Lost ÷ In' },
    ...BOUNDS,
    { key: 'secondRate', title: 'Seconds', type: 'fraction', drop: 3, from: 'Second ÷ In' },
  ];
}

function groupColumns(by: LossGroup): ColumnOf<LossLine>[] {
  const group = { key: 'group', title: LOSS_TITLES[by], type: 'text' } as const;
  return by === 'firing' ? [group] : [group, { key: 'firing', title: 'Firing', type: 'text' }];
}

const OUTCOME_COUNTS = ['in', 'first', 'second', 'lost'] as const;
/** By cause what went in is counted of all firings of the kind, whatever their losses. */
const FAULT_COUNTS = ['faults', 'second', 'lost'] as const;

/** A row with the firing that it is of. */
type LossLine = Omit<LossRow, 'by'> & { readonly firing: string };

/**
 * Loss rates by kind of firing, and within it by what is asked for; makings and refires have rows of
 * their own and are not in the totals. A product has one row, with its stages in columns.
 */
export function lossesTable(
  book: Book,
  flows: Flows,
  asked: { by: LossGroup; span: DaysUpTo },
): Table {
  const { by, span } = asked;
  if (by === 'product') return productLossesTable(book, flows, span);
  const facts = lossFacts(book, span, flows.stock.asOf);
  const rows = lossRows(facts, by)
    .map((row) => ({ ...row, group: nameOfGroup(row, by) }))
    .sort((a, b) => inOrderOfGroups(a, b, by));
  const columns = lossColumns(by);
  const all = lossTotal(facts, by);
  const totals = cellsOf(columns, { ...all, group: 'all firings', firing: '' });
  const cells = { columns, totals };
  return {
    report: 'losses',
    title: `Losses by ${by === 'firing' ? 'kind of firing' : LOSS_TITLES[by].toLowerCase()}, ${spanInWords(span)}`,
    ...tableHead(book, flows.stock.asOf),
    ...withRows(
      columns,
      rows.map((row) => ({ ...row, firing: row.stage })),
    ),
    ...(by === 'cause' ? {} : { sums: OUTCOMES }),
    totals,
    verdict:
      by === 'firing'
        ? firingLossVerdict(rows, { all, facts }, cells)
        : groupLossVerdict(rows, { book, by, facts }, cells),
    notes: lossNotes(rows, by),
    behind: once(() => rows.map((row) => [...row.by.keys()])),
    brought: broughtByParts(rows, lossParts(by === 'cause' ? FAULT_COUNTS : OUTCOME_COUNTS)),
  };
}

function lossNotes(rows: readonly LossRow[], by: LossGroup): string[] {
  const rate = by === 'cause' ? 'rate of faults' : 'loss rate';
  const isApart = rows.some((row) => !isFirstFiring(row.stage));
  return sentences(
    `Low and high bound the ${rate} with 95 % confidence: a few pieces tell little.`,
    isApart && 'Making and refires are listed separately, not in the totals.',
    by === 'cause' &&
      'A fault is a second or a lost piece. Second and Lost are only what is certain of each cause: where a load line has both, its lost-to says which causes took the lost pieces.',
    by === 'recipe' && 'A piece with two glazes counts under both.',
  );
}
