/** A YAML file outside every kind's folder is read by nobody. */
import type { Finding } from '../../problem.ts';
import { KINDS } from '../../book.ts';
import { listed } from '../finding.ts';

/** A YAML file that belongs to no kind, and where it may be meant to be. */
export interface StrayFile {
  readonly file: string;
  readonly suggestion?: string;
}

export const STRAY_FILE = {
  name: 'stray-file',
  severity: 'warning',
  about: 'A YAML file belongs to no kind of record, so nothing in it counts.',
} as const;

/** One warning for each stray file. */
export function strayFiles(strays: readonly StrayFile[]): readonly Finding[] {
  return strays.map(({ file, suggestion }) => ({
    rule: STRAY_FILE.name,
    severity: STRAY_FILE.severity,
    at: { file, path: [] },
    message: 'this file belongs to no kind of record, and nothing in it counts',
    hint:
      suggestion === undefined
        ? `move it into the folder of its kind: ${listed(KINDS, 'or')}`
        : `did you mean ${suggestion}?`,
  }));
}
