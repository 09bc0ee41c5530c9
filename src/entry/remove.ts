/** Plans to take a record out, and says who still names it. */
import type { Spot } from '../problem.ts';
import { wholeText } from '../read/disk.ts';
import type { Refused } from '../write/parts.ts';
import { removeRecord } from '../write/splice.ts';
import { modelineFor } from '../write/target.ts';
import type { Named } from './lexicon.ts';
import { planEdits, type OpenedStudio, type Plan } from './plan.ts';
import { referencesTo } from './references.ts';

/** A plan to remove a record. */
export interface RemovePlan extends Plan {
  /** The record as it stands in its file, with its own comments left out. */
  readonly removed: Named;
  /** Where other records name it. */
  readonly usedAt: readonly Spot[];
}

/**
 * Plans to remove a record with its comments; a file that it leaves empty, but for the line that names its
 * schema, goes too.
 */
export async function planRemove(
  opened: OpenedStudio,
  removed: Named,
): Promise<RemovePlan | Refused> {
  const { id, kind, file } = removed;
  const before = wholeText(opened.folder, file);
  if (before === undefined) return { refused: `${file} is gone; run the command again` };
  const spliced = removeRecord(before, id);
  if ('refused' in spliced) return { refused: `${file} was left as it is: ${spliced.refused}` };
  const rest = spliced.text.trim();
  const after = rest === '' || rest === modelineFor(kind, file) ? undefined : spliced.text;
  const files = [{ file, kind, before, after }];
  const plan = await planEdits(opened, { files, touched: [{ kind, id }] });
  return { ...plan, removed, usedAt: referencesTo(opened.reading.files, removed) };
}
