/** Sentences of a review that every format has. */
import type { Review, ReviewChange } from '../../review/review.ts';
import { counted, countsText } from '../../review/verdict.ts';

/** Whose book, which states of it, as of which day. */
export function headText({ studio, from, to, asOf, currency }: Review): string {
  const parts = [studio, `${from} → ${to}`, `as of ${asOf}`, currency];
  return parts.filter((part) => part !== '').join(' · ');
}

/** How many records came, went and changed, and which files only look otherwise. */
export function recordsText({ counts, onlyWritten }: Review): string {
  const told = countsText(counts);
  const records = told === '' ? 'No record means anything else than before' : upper(told);
  if (onlyWritten.length === 0) return `${records}.`;
  const files = counted(onlyWritten.length, 'file is', 'files are');
  return `${records}. No change in meaning: ${files} only written otherwise (${fewOf(onlyWritten)}).`;
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
  return `Problems: ${found}, ${mended.length} gone, ${kept} as before.`;
}

/** What became of a record, with its place. */
export function becameText(change: ReviewChange): string {
  const { title, about, at } = change;
  const name = about === '' ? title : `${title}, ${about}`;
  return `${name}: ${happened(change)} (${at})`;
}

function happened({ became, was, from, follows }: ReviewChange): string {
  const moved = from === undefined ? '' : `, moved here from ${from}`;
  switch (became) {
    case 'moved':
      return `only moved here from ${from ?? ''}`;
    case 'renamed':
      return `was ${was ?? ''} before${moved}`;
    case 'unsound':
      return 'has faults now, and counts no more';
    case 'sound':
      return 'had faults before, and counts now';
    case 'added':
    case 'removed':
      return became;
    case 'changed':
      return `changed${moved}${follows === 0 ? '' : '; references follow a new id'}`;
  }
}

function upper(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
