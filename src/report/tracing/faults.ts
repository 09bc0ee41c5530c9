/** Which load lines had a fault, by what they have in common: what differs, never what caused it. */
import type { Book, Cause, Day } from '../../book.ts';
import { sentences } from '../../in-words.ts';
import { decimal, divide, roundTo } from '../../number/decimal.ts';
import { faultGroups, type FaultGroup } from '../../reckon/tracing/faults.ts';
import { tableHead, withRows } from '../head.ts';
import type { ColumnOf, Table } from '../table.ts';

const FAULT_COLUMNS: readonly ColumnOf<ReturnType<typeof faultRow>>[] = [
  { key: 'by', title: 'By', type: 'text' },
  { key: 'value', title: 'Which', type: 'text', isName: true },
  { key: 'faulty', title: 'Faulty loads', type: 'count' },
  { key: 'lines', title: 'Of', type: 'count' },
  { key: 'share', title: 'Share', type: 'fraction' },
  { key: 'otherFaulty', title: 'Others faulty', type: 'count', drop: 2 },
  { key: 'otherLines', title: 'Of others', type: 'count', drop: 2 },
  { key: 'otherShare', title: 'Share of others', type: 'fraction' },
  { key: 'pieces', title: 'Pieces', type: 'count', drop: 3 },
  { key: 'chance', title: 'By chance', type: 'quantity', places: 4, drop: 1 },
  { key: 'corrected', title: 'Corrected', type: 'quantity', places: 4 },
  { key: 'differs', title: 'Differs', type: 'flag' },
];

/** Below this a difference is named. */
const DIFFERS = 0.05;
/** People see so many, those that chance explains least first. */
const FIRST_FEW = 15;

/** The load lines with a fault up to a day; people see the first of them unless all are asked for. */
export function faultsTable(
  book: Book,
  fault: Cause,
  { asOf, isWhole }: { readonly asOf: Day; readonly isWhole: boolean },
): Table {
  const tried = faultGroups(book, fault, asOf);
  const shown = isWhole ? tried : tried.slice(0, FIRST_FEW);
  return {
    report: 'trace',
    title: `Loads with ${fault} ware, by what they have in common`,
    ...tableHead(book, asOf),
    currency: '',
    ...withRows(FAULT_COLUMNS, shown.map(faultRow)),
    notes: faultNotes(fault, tried, shown.length),
    behind: () => shown.map(({ records }) => records),
  };
}

function faultRow(group: FaultGroup) {
  const { lines, faulty, otherLines, otherFaulty, chance, corrected } = group;
  return {
    by: group.by,
    value: group.value,
    faulty,
    lines,
    share: divide(decimal(faulty), decimal(lines)),
    otherFaulty,
    otherLines,
    otherShare: divide(decimal(otherFaulty), decimal(otherLines)),
    pieces: group.pieces,
    chance: chanceOf(chance),
    corrected: chanceOf(corrected),
    differs: corrected <= DIFFERS,
  };
}

const CHANCE_PLACES = 8;

function chanceOf(chance: number) {
  return roundTo(decimal(chance.toFixed(CHANCE_PLACES)), CHANCE_PLACES);
}

function faultNotes(fault: Cause, tried: readonly FaultGroup[], shown: number): string[] {
  if (tried.length === 0) return [`No load has ${fault} ware on record.`];
  const differing = tried.filter(({ corrected }) => corrected <= DIFFERS);
  return sentences(
    differing.length === 0
      ? 'Nothing differs by more than chance may bring.'
      : `Differs from the others: ${differing.map(({ by, value }) => `${by} ${value}`).join(', ')}. That is not yet the cause: what differs may have come with something else.`,
    shown < tried.length && `${shown} of ${tried.length} that were tried; all of them: --full.`,
    'A load is one lot in one firing, faulty or not; pieces are shown and never tested, since one bad load makes all its pieces bad.',
    `By chance: Fisher's exact test, two-sided, against all other loads of which it is on record; corrected after Holm for all ${tried.length} that were tried.`,
    'Only what records name counts: the mix and the clay of a lot, the bags of a mix, the shelf of a load.',
  );
}
