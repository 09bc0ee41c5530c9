/** What is wrong in a changed studio that was not wrong before. */
import type { Finding, Place, Spot } from '../problem.ts';

/**
 * The findings that were not there before, in their order. Elsewhere than in the touched records a
 * finding counts as known where the same rule has spoken at the same place, for its words may hold
 * sums that the change moved; within them, only where the words are the same too.
 */
export function freshFindings(
  before: readonly Finding[],
  after: readonly Finding[],
  touched: ReadonlySet<string>,
): readonly Finding[] {
  const known = new Map<string, number>();
  for (const finding of before) {
    const key = keyOf(finding, touched);
    known.set(key, (known.get(key) ?? 0) + 1);
  }
  return after.filter((finding) => {
    const key = keyOf(finding, touched);
    const left = known.get(key) ?? 0;
    known.set(key, left - 1);
    return left <= 0;
  });
}

function keyOf(finding: Finding, touched: ReadonlySet<string>): string {
  const { rule, severity, at, message, untold } = finding;
  if (untold !== undefined) return [rule, severity, at.file].join('\n');
  const words = isPlace(at) || touched.has(String(at.path[0])) ? message : '';
  return [rule, severity, at.file, siteOf(at), words].join('\n');
}

// Lines move when a record is put in above them, so a counted place is known by its line's text.
function siteOf(at: Spot | Place): string {
  return isPlace(at) ? at.source : [...at.path, at.on ?? 'value'].join('\n');
}

function isPlace(at: Spot | Place): at is Place {
  return 'line' in at;
}
