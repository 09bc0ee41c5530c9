/** What a change makes of a record's values, old → new. */
import { pathWords } from '../../in-words.ts';
import { valueAt, type Path, type Raw } from '../../read/raw.ts';
import { differencesOf, valueWords } from '../../read/yaml/differences.ts';
import type { Amendment } from '../amendment.ts';

const NOTHING = '(none)';

/** A line for each value that is amended: `lines.1.price: 36 → 40`. */
export function amendedLines(
  before: Raw,
  after: Raw,
  amendments: readonly Amendment[],
): readonly string[] {
  return amendments.map(({ path, value, isNew = false }) => {
    const is = value === undefined ? undefined : valueAt(after, path);
    return changeLine(path, isNew ? undefined : valueAt(before, path), is);
  });
}

/** A line for each value that two versions of a record do not have alike. */
export function differingLines(before: Raw | undefined, after: Raw | undefined): readonly string[] {
  return differencesOf(before, after).map(({ path, ours, theirs }) =>
    changeLine(path, ours, theirs),
  );
}

function changeLine(path: Path, was: Raw | undefined, is: Raw | undefined): string {
  const words = (value: Raw | undefined): string =>
    value === undefined ? NOTHING : valueWords(value);
  return `${pathWords(path)}: ${words(was)} → ${words(is)}`;
}
