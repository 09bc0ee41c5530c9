/** What tells a book's months from those of any other book: all that they come to hangs on it. */
import { digestOf } from '../digest.ts';
import { addTo } from '../grouping.ts';
import { FROM_THE_BEGINNING, type Outline } from './outline.ts';

/**
 * The key of a month: two books in which it is the same come to the same up to the end of that month. It
 * is made of all that moves something up to then; of lots that are named before they were made, too.
 */
export type KeyOf = (month: string) => string;

/** The keys of the months of a book that these files make, in the order of their paths. */
export function monthKeys(outlines: readonly Outline[]): KeyOf {
  const moved = new Map<string, string[]>();
  const lots = new Map<string, { readonly month: string; readonly at: number }>();
  outlines.forEach(({ moves, lots: made }, at) => {
    for (const [month, digest] of moves) addTo(moved, month, digest);
    for (const [id, month] of made) lots.set(id, { month, at });
  });
  const namings = outlines.flatMap(({ names }) =>
    names.flatMap(([month, ids]) => ids.map((id) => ({ month, id }))),
  );
  for (const { month, id } of namings) {
    const lot = lots.get(id);
    if (lot && lot.month <= month) continue;
    addTo(moved, month, `${id} ${JSON.stringify(lot ? outlines[lot.at]?.moves : [])}`);
  }
  return keysOf(moved);
}

function keysOf(moved: ReadonlyMap<string, readonly string[]>): KeyOf {
  const months = [...moved.keys()].sort();
  const keys = new Map<string, string>();
  let last = digestOf((moved.get(FROM_THE_BEGINNING) ?? []).join('\n'));
  for (const month of months) {
    last = digestOf([last, month, ...(moved.get(month) ?? [])].join('\n'));
    keys.set(month, last);
  }
  return (month) => {
    const at = months.findLast((each) => each <= month);
    return `${month} ${at === undefined ? last : (keys.get(at) ?? '')}`;
  };
}
