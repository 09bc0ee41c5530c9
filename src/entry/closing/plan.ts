/** Plans the end of a fair day: one sale of what was sold, and what is missing in the records of its lots. */
import { wholeText } from '../../read/disk.ts';
import type { RawMap } from '../../read/raw.ts';
import type { Refused } from '../../write/parts.ts';
import { putRecords } from '../add.ts';
import { amendText } from '../amend.ts';
import { planEdits, type Edited, type OpenedStudio, type Plan } from '../plan.ts';
import type { Added } from '../put.ts';
import type { LotChange } from './missing.ts';

/** What is to be written. */
export interface Writing {
  /** The whole sale; undefined where nothing was sold. */
  readonly sale: RawMap | undefined;
  /** An id of one's own for it. */
  readonly id: string | undefined;
  readonly lots: readonly LotChange[];
  /** A number from 0 to below 1. */
  readonly random: () => number;
}

/** A plan to write it, all in one. */
export interface ClosingPlan extends Plan {
  readonly added: readonly Added[];
  readonly lots: readonly LotChange[];
  /** The new text of a file. */
  readonly textOf: (file: string) => string;
}

/** Plans it; refused where a file can't take its part. */
export async function planClosing(
  opened: OpenedStudio,
  { sale, id, lots, random }: Writing,
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
