/** What the check says of a record, in one line a finding. */
import { expect } from 'vitest';
import { checkFile } from '../../../src/check/schema.ts';
import type { Finding, Spot } from '../../../src/problem.ts';
import type { RawFile } from '../../../src/read/raw.ts';
import { coreView, rawFile } from '../../helpers/file-views.ts';
import { DOCUMENTS, fileOf } from '../../schema/documents.ts';

/** The findings of a file's text. */
export function check(kind: RawFile['kind'], text: string): readonly Finding[] {
  return checkFile(rawFile(kind, text), () => coreView(text)).findings;
}

/** What is said of one change to a sound record: place, rule, message and hint. */
export function said(kind: RawFile['kind'], change: string): readonly string[] {
  const findings = check(kind, fileOf(kind, DOCUMENTS[kind].base, change));
  return findings.map(({ rule, severity, at, message, hint }) => {
    const { file, path, on } = at as Spot;
    expect([severity, file]).toEqual(['error', `${kind}.yaml`]);
    return `${path.join('/')}${on === 'key' ? ' (key)' : ''} ${rule}: ${message}; ${hint}`;
  });
}
