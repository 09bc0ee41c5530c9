/** What is wrong with files as files, and one id for one record in the whole studio. */
import { KINDS, type Kind } from '../../book.ts';
import type { Finding } from '../../problem.ts';
import { NOUN, keySpot, listed, twice, withArticle, type Sited } from '../finding.ts';
import { didYouMean } from '../../nearest.ts';
import { isListFile } from '../../read/kinds.ts';
import type { Rule } from '../rule.ts';

/** What the docs say of a rule. */
type RuleText = Pick<Rule, 'name' | 'severity' | 'about'>;

/** A record before the book is made: its id, its kind and where it is. */
export interface NamedRecord extends Sited {
  readonly kind: Kind;
}

export const DUPLICATE_ID = {
  name: 'duplicate-id',
  severity: 'error',
  about: 'Two records of the studio have the same id; capitals make no difference.',
} as const satisfies RuleText;

/**
 * Ids that were used before, compared without case, in the order of the records. The same id twice
 * in one file as it stands there is an error of the file itself.
 */
export function duplicateIds(records: Iterable<NamedRecord>): readonly Finding[] {
  return twice(records, ({ id }) => id.toLowerCase()).map(([record, earlier]) => {
    const noun = NOUN[earlier.kind];
    return {
      rule: DUPLICATE_ID.name,
      severity: DUPLICATE_ID.severity,
      at: keySpot(record),
      message: `"${record.id}" is already the id of ${withArticle(noun)} in ${earlier.file}`,
      hint: `give one of the two another id, such as ${record.id}-2, and correct what names it`,
      related: [{ at: keySpot(earlier), message: `the ${noun} of that id` }],
    };
  });
}

/** A YAML file that belongs to no kind, and where it may be meant to be. */
export interface StrayFile {
  readonly file: string;
  readonly suggestion?: string;
}

const STRAY_FILE = {
  name: 'stray-file',
  severity: 'warning',
  about: 'A YAML file belongs to no kind of record, so nothing in it counts.',
} as const;

/** One warning for each stray file; the map of a list is none. */
export function strayFiles(strays: readonly StrayFile[]): readonly Finding[] {
  return strays
    .filter(({ file }) => !isListFile(file))
    .map(({ file, suggestion }) => ({
      rule: STRAY_FILE.name,
      severity: STRAY_FILE.severity,
      at: { file, path: [] },
      message: 'this file belongs to no kind of record, and nothing in it counts',
      hint: didYouMean(
        suggestion,
        `move it into the folder of its kind: ${listed(KINDS, 'or')}`,
        '',
      ),
    }));
}

/** The rules of reading and of the schemas. */
export const FILE_RULES: readonly RuleText[] = [
  DUPLICATE_ID,
  {
    name: 'merge-conflict',
    severity: 'error',
    about: 'Two versions of some lines meet after a merge, and which of them holds is not settled.',
  },
  {
    name: 'needs-quotes',
    severity: 'error',
    about: 'A text has no quotes where other readers of the file would change it.',
  },
  {
    name: 'number-form',
    severity: 'error',
    about: 'A number is written in a form that other readers of the file would take for another.',
  },
  {
    name: 'schema',
    severity: 'error',
    about: 'A field is missing, unknown, of the wrong form or not one of the words that go there.',
  },
  STRAY_FILE,
  {
    name: 'unreadable-file',
    severity: 'error',
    about: 'A file or folder could not be read, is too large, or leads out of the studio.',
  },
  {
    name: 'yaml-error',
    severity: 'error',
    about: 'A file is not the plain YAML that a studio is kept in.',
  },
];
