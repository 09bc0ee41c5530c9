/** What a book leaves out, gathered so that sound records are not blamed for it. */
import { KINDS, type Kind } from '../book.ts';
import type { Finding } from '../problem.ts';
import type { Raw } from '../read/raw.ts';
import type { UnsoundRecord } from './draft.ts';
import type { Unsound } from './rule.ts';
import { DUPLICATE_ID } from './rules/files.ts';

/** From the records with faults of their own, and from the files that could not be read. */
export function unsoundIn(records: readonly UnsoundRecord[], reading: readonly Finding[]): Unsound {
  const ids = new Map<string, Kind>();
  const texts = new Set<string>();
  const kinds = new Set<Kind | 'studio'>();
  for (const { kind, id, raw } of records) {
    if (kind === 'studio') kinds.add(kind);
    else ids.set(id, kind);
    gatherTexts(raw, texts);
  }
  for (const { rule, severity, at } of reading) {
    const kind = kindOfFile(at.file);
    // An id that stands twice is on record all the same.
    if (kind && severity === 'error' && rule !== DUPLICATE_ID.name) kinds.add(kind);
  }
  return { ids, texts, kinds };
}

/** Whether the book may lack records of a kind, for they or their file have faults. */
export function mayLack({ ids, kinds }: Unsound, kind: Kind): boolean {
  return kinds.has(kind) || [...ids.values()].includes(kind);
}

function gatherTexts(raw: Raw, texts: Set<string>): void {
  if (typeof raw === 'string') {
    texts.add(raw);
    return;
  }
  const parts = Array.isArray(raw) ? (raw as readonly Raw[]) : Object.values(raw);
  if (!Array.isArray(raw)) for (const key of Object.keys(raw)) texts.add(key);
  for (const part of parts) gatherTexts(part, texts);
}

/** The kind whose records a file or folder holds, by its path: `sales/2026.yaml`, `sales.yaml`. */
function kindOfFile(file: string): Kind | 'studio' | undefined {
  const [first = ''] = file.split('/');
  const name = first.replace(/\.ya?ml$/, '');
  return name === 'studio' ? name : KINDS.find((kind) => kind === name);
}
