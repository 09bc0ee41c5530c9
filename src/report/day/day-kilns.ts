/** The parts of kilns that are due, for a day's end. */
import type { Day } from '../../book.ts';
import { daysBetween } from '../../number/date.ts';
import type { PartInKiln } from '../../reckon/kilns/kiln-parts.ts';
import type { Row } from '../table.ts';

/** A row for each; the days are those until it is due. */
export function duePartRows(parts: readonly PartInKiln[], asOf: Day): Row[] {
  return parts.map((each) => ({
    what: each.kiln.id,
    name: each.kiln.name,
    kind: each.part.part,
    count: each.firings,
    of: each.part.firings,
    since: each.part.fitted ?? null,
    days: each.dueOn === undefined ? null : daysBetween(asOf, each.dueOn),
    says: partText(each),
  }));
}

/** `Big kiln, elements (148 of 150 firings, due about 2026-08-03)`. */
function partText({ part, kiln, firings, state, dueOn = '' }: PartInKiln): string {
  const when = state === 'due' ? 'due now' : `due about ${dueOn}`;
  return `${kiln.name}, ${part.part} (${firings} of ${part.firings.toString()} firings, ${when})`;
}
