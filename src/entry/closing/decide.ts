/** What becomes of the pieces that are gone: sold or missing, as it is said, and what is left. */
import { wholeText } from '../../read/disk.ts';
import { mapping, type RawMap } from '../../read/raw.ts';
import { STUDIO_PLACE } from '../../reckon/ware/lot.ts';
import type { Refused } from '../../write/parts.ts';
import { putRecords, type Added } from '../add.ts';
import { amendText } from '../amend.ts';
import { goneInLots, type GoneWare, type LotChange } from '../gone/in-lots.ts';
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

/** What to write in which lots; refused where fewer are finished than are missing. */
export function missingInLots(
  { book, lexicon }: ClosingGround,
  { fair, day }: FairDay,
  missing: readonly FairWare[],
): readonly LotChange[] | Refused {
  const gone = missing.map((ware): GoneWare => {
    const entry = mapping(Object.entries({ how: 'missing', fair: fair.id }));
    return { ...ware, grade: ware.grade ?? 'first', day, place: STUDIO_PLACE, entry };
  });
  const taken = goneInLots({ book, lexicon }, gone);
  if (!('short' in taken)) return taken;
  const { short, had } = taken;
  return notFinished(
    { ...short, grade: short.grade === 'second' ? 'second' : undefined },
    { day, had },
  );
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
