/** Sentences of a review that every format has. */
import { countOf } from '../../fold.ts';
import { capitalised, counted } from '../../in-words.ts';
import type { Review } from '../../review/review.ts';
import type { ReviewChange } from '../../review/told-changes.ts';
import { countsText } from '../../review/verdict.ts';

/** Whose book, which states of it, as of which day. */
export function headText({ studio, from, to, asOf, currency }: Review): string {
  const parts = [studio, `${from} → ${to}`, `as of ${asOf}`, currency];
  return parts.filter((part) => part !== '').join(' · ');
}

/** How many records came, went and changed, and which files only look otherwise. */
export function recordsText({ counts, onlyWritten }: Review): string {
  const told = countsText(counts);
  const records = told === '' ? 'No record changed its meaning' : capitalised(told);
  if (onlyWritten.length === 0) return `${records}.`;
  const files = counted(onlyWritten.length, 'file');
  return `${records}. Only the layout changed in ${files} (${fewOf(onlyWritten)}).`;
}

const MOST_FILES = 3;

function fewOf(files: readonly string[]): string {
  const rest = files.length - MOST_FILES;
  const shown = files.slice(0, MOST_FILES).join(', ');
  return rest > 0 ? `${shown} and ${rest} more` : shown;
}

/** How many problems are new, gone and in both states. */
export function problemsText({ errors, warnings, mended, kept }: Review): string {
  const found = `${counted(errors, 'new error')}, ${counted(warnings, 'new warning')}`;
  return `Problems: ${found}, ${countOf(mended)} gone, ${kept} as before.`;
}

/** What it does to money, stock and what was filed; nothing where nothing can move them. */
export function briefLines({ brief, changes, risks }: Review): readonly string[] {
  return changes.length + risks.length === 0 ? [] : brief;
}

/** What became of a record, with its place. */
export function becameText(change: ReviewChange): string {
  const { title, about, at } = change;
  const name = about === '' ? title : `${title}, ${about}`;
  return `${name}: ${happened(change)} (${at})`;
}

/** Records that only stand in another file, by the two files: `21 records moved from A to B`. */
export function movesText(changes: readonly ReviewChange[]): string[] {
  const moves = new Map<string, { from: string; to: string; ids: string[] }>();
  for (const { became, id, at, from = '' } of changes) {
    if (became !== 'moved') continue;
    const to = at.slice(0, at.lastIndexOf(':'));
    const known = moves.get(`${from}\n${to}`) ?? { from, to, ids: [] };
    moves.set(`${from}\n${to}`, { ...known, ids: [...known.ids, id] });
  }
  return [...moves.values()].map(({ from, to, ids }) => {
    const what = ids.length === 1 ? (ids[0] ?? '') : `${ids.length} records`;
    return `${what} moved from ${from} to ${to}, unchanged`;
  });
}

function happened({ became, was, from, follows }: ReviewChange): string {
  const moved = from === undefined ? '' : `, moved here from ${from}`;
  switch (became) {
    case 'moved':
      return `moved here from ${from ?? ''}, unchanged`;
    case 'renamed':
      return `was ${was ?? ''} before${moved}; ${counted(follows, 'reference')} ${follows === 1 ? 'follows' : 'follow'}`;
    case 'unsound':
      return 'now has errors, so it no longer counts';
    case 'sound':
      return 'had errors before, and counts now';
    case 'added':
    case 'removed':
      return became;
    case 'changed':
      return `changed${moved}${follows === 0 ? '' : '; references follow a new id'}`;
  }
}
