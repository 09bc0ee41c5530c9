/** One id for one record in the whole studio, whatever its kind and file. */
import type { Kind } from '../../book.ts';
import type { Finding } from '../../problem.ts';
import { NOUN, keySpot, withArticle, type Sited } from '../finding.ts';

/** A record before the book is made: its id, its kind and where it stands. */
export interface NamedRecord extends Sited {
  readonly kind: Kind;
}

export const DUPLICATE_ID = {
  name: 'duplicate-id',
  severity: 'error',
  about: 'Two records of the studio have the same id; capitals make no difference.',
} as const;

/**
 * Ids that were used before, compared without case, in the order of the records. The same id twice
 * in one file as it stands there is an error of the file itself.
 */
export function duplicateIds(records: Iterable<NamedRecord>): readonly Finding[] {
  const first = new Map<string, NamedRecord>();
  const found: Finding[] = [];
  for (const record of records) {
    const id = record.id.toLowerCase();
    const earlier = first.get(id);
    if (earlier === undefined) first.set(id, record);
    else found.push(duplicate(record, earlier));
  }
  return found;
}

function duplicate(record: NamedRecord, earlier: NamedRecord): Finding {
  const noun = NOUN[earlier.kind];
  return {
    rule: DUPLICATE_ID.name,
    severity: DUPLICATE_ID.severity,
    at: keySpot(record),
    message: `"${record.id}" is already the id of ${withArticle(noun)} in ${earlier.file}`,
    hint: 'give one of the two another id, and mend what names it',
    related: [{ at: keySpot(earlier), message: `the ${noun} of that id` }],
  };
}
