/** What becomes of the pieces that are gone: sold or missing, as it is said, and what is left. */
import type { Grade } from '../../book.ts';
import { wholeText } from '../../read/disk.ts';
import { isList, mapping, valueAt, type RawMap } from '../../read/raw.ts';
import { carries } from '../../reckon/ware/finished.ts';
import { countsFlow } from '../../reckon/flow.ts';
import { STUDIO_PLACE, placeKey, type LotState } from '../../reckon/ware/lot.ts';
import { byFinish, lotsStanding } from '../../reckon/ware/ware.ts';
import type { Refused } from '../../write/parts.ts';
import { putRecords, type Added } from '../add.ts';
import { amendText } from '../amend.ts';
import type { Amendment } from '../amendment.ts';
import type { Lexicon, FoundRecord } from '../lexicon.ts';
import { planEdits, type ChangePlan, type Edited, type OpenedStudio } from '../plan.ts';
import type { ClosingGround, GoneRow } from './closing.ts';
import { fitting, wareName, type FairDay, type FairWare } from './count.ts';
import type { SaidLines, SoldWare } from './said.ts';

/** Pieces that were sold, that are missing, and those of which neither is said. */
export interface Fates {
  readonly sold: readonly SoldWare[];
  readonly missing: readonly FairWare[];
  readonly left: readonly FairWare[];
}

/** What is said of them. */
interface SaidOf {
  readonly sold: SaidLines;
  readonly missing: SaidLines;
}

interface StillGone {
  readonly row: GoneRow;
  left: number;
}

/** Finds the gone pieces of each line; refused where a line has more of them than are gone. */
export function decide(gone: readonly GoneRow[], { sold, missing }: SaidOf): Fates | Refused {
  if (sold.all && missing.all)
    return { refused: 'all pieces can be sold or missing, not both; keep one "all"' };
  const open = gone.map((row) => ({ row, left: row.gone }));
  const parts = { sold: [] as SoldWare[], missing: [] as FairWare[] };
  const named = [
    ...sold.lines.map((ware) => ({ to: 'sold', ware }) as const),
    ...missing.lines.map((ware) => ({ to: 'missing', ware }) as const),
  ];
  for (const { to, ware } of named) {
    const found = takeGone(open, ware);
    if ('refused' in found) return { refused: `--${to}: ${found.refused}` };
    parts[to].push(...found);
  }
  const rest = open.filter(({ left }) => left > 0).map(({ row, left }) => wareIn(row, left));
  return {
    sold: sold.all ? [...parts.sold, ...rest] : parts.sold,
    missing: missing.all ? [...parts.missing, ...rest] : parts.missing,
    left: sold.all || missing.all ? [] : rest,
  };
}

function wareIn({ product, glaze, grade }: GoneRow, count: number): FairWare {
  return { product, glaze, grade, count };
}

function takeGone(open: readonly StillGone[], ware: SoldWare): SoldWare[] | Refused {
  const rows = open.map((each) => ({ ...each.row, each }));
  const fits = fitting(rows, ware);
  const there = fits.reduce((sum, { each }) => sum + each.left, 0);
  if (ware.count > there)
    return { refused: `${ware.count} ${wareName(ware)}, but ${there} are gone and not spoken for` };
  const found: SoldWare[] = [];
  let left = ware.count;
  for (const { each, glaze } of fits) {
    const count = Math.min(left, each.left);
    each.left -= count;
    left -= count;
    if (count > 0) found.push({ ...ware, glaze: ware.glaze ?? glaze, count });
  }
  return found;
}

/** What is to be written in the record of one lot. */
interface LotChange {
  readonly record: FoundRecord;
  readonly amendments: readonly Amendment[];
}

/** Pieces of one lot and grade. */
interface TakenPieces {
  readonly lot: string;
  readonly grade: Grade;
  count: number;
}

/** What to write in which lots; refused where fewer are finished than are missing. */
export function missingInLots(
  { book, lexicon }: ClosingGround,
  at: FairDay,
  missing: readonly FairWare[],
): readonly LotChange[] | Refused {
  const taken: TakenPieces[] = [];
  // What a count found without a lot has no record to write it in.
  const all = [...lotsStanding(countsFlow(book, at.day).ware.lots)].filter(
    ({ lot }) => lexicon.find(lot.id) !== undefined,
  );
  const inTurn = all.sort(byFinish);
  for (const ware of missing) {
    const { product, glaze, grade = 'first' } = ware;
    const lots = inTurn.filter((each) => each.lot.product === product && carries(each, glaze));
    const left = takeFrom(lots, { taken, grade, count: ware.count });
    if (left > 0) return notFinished(ware, { day: at.day, had: ware.count - left });
  }
  return changesOf(taken, lexicon, at);
}

function takeFrom(
  lots: readonly LotState[],
  { taken, grade, count }: { taken: TakenPieces[]; grade: Grade; count: number },
): number {
  let left = count;
  for (const { lot, places } of lots) {
    const known = taken.find((each) => each.lot === lot.id && each.grade === grade);
    const there = (places.get(placeKey(grade, STUDIO_PLACE)) ?? 0) - (known?.count ?? 0);
    const some = Math.min(left, there);
    if (some <= 0) continue;
    if (known) known.count += some;
    else taken.push({ lot: lot.id, grade, count: some });
    left -= some;
  }
  return left;
}

function changesOf(
  taken: readonly TakenPieces[],
  lexicon: Lexicon,
  { fair, day }: FairDay,
): readonly LotChange[] {
  return [...new Set(taken.map(({ lot }) => lot))].flatMap((lot) => {
    const record = lexicon.find(lot);
    if (!record) return [];
    const gone = valueAt(record.raw, ['gone']);
    const before = isList(gone) ? gone.length : 0;
    const amendments = taken
      .filter((each) => each.lot === lot)
      .map(({ grade, count }, index) => ({
        path: ['gone', before + index],
        value: mapping([
          ...Object.entries({ date: day, count: String(count), how: 'missing' }),
          ...(grade === 'second' ? ([['grade', grade]] as const) : []),
          ['fair', fair.id],
        ]),
      }));
    return [{ record, amendments }];
  });
}

function notFinished(ware: FairWare, { day, had }: { day: string; had: number }): Refused {
  const name = wareName(ware);
  return {
    refused: `${ware.count} ${name} are missing, but lots on record have ${had} finished on ${day}; correct --missing, or record what is there with saggar add counted`,
  };
}

/** What is to be written. */
interface DayToWrite {
  /** The whole sale; undefined where nothing was sold. */
  readonly sale: RawMap | undefined;
  /** An id of one's own for it. */
  readonly id: string | undefined;
  readonly lots: readonly LotChange[];
  /** A number from 0 to below 1. */
  readonly random: () => number;
}

/** A plan to write it, all in one. */
export interface ClosingPlan extends ChangePlan {
  readonly added: readonly Added[];
  readonly lots: readonly LotChange[];
  /** The new text of a file. */
  readonly textOf: (file: string) => string;
}

/** Plans it; refused where a file can't take its part. */
export async function planClosing(
  opened: OpenedStudio,
  { sale, id, lots, random }: DayToWrite,
): Promise<ClosingPlan | Refused> {
  const edited = new Map<string, Edited>();
  const records = sale ? [{ id, fields: sale }] : [];
  const added = putRecords(opened, { kind: 'sales', records, random }, edited);
  if ('refused' in added) return added;
  for (const lot of lots) {
    const refusal = putLot(opened.folder, lot, edited);
    if (refusal) return refusal;
  }
  const touched = [
    ...added.map((each) => ({ kind: 'sales' as const, id: each.id })),
    ...lots.map(({ record }) => ({ kind: record.kind, id: record.id })),
  ];
  const plan = await planEdits(opened, { files: [...edited.values()], touched });
  return { ...plan, added, lots, textOf: (file) => edited.get(file)?.after ?? '' };
}

function putLot(
  folder: string,
  { record, amendments }: LotChange,
  edited: Map<string, Edited>,
): Refused | undefined {
  const { file, kind } = record;
  const earlier = edited.get(file);
  const before = earlier ? earlier.before : wholeText(folder, file);
  if (before === undefined) return { refused: `${file} is gone; run the command again` };
  const spliced = amendText(earlier?.after ?? before, record, amendments);
  if ('refused' in spliced) return spliced;
  edited.set(file, { file, kind, before, after: spliced.text });
  return undefined;
}
