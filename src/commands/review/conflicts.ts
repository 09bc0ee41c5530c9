/** What a merge can't bring together, as problems of the book that it would make. */
import type { Finding } from '../../problem.ts';
import type { MergeConflict } from '../../read/git/merged.ts';
import { kindOf } from '../../read/kinds.ts';
import { wholeFile } from '../../read/lines.ts';
import { shellQuoted } from '../records/undo.ts';
import type { States } from './merging.ts';

/** The findings of a merged book, with those conflicts of which its files show nothing. */
export function withConflicts(
  findings: readonly Finding[],
  { conflicts, repository: { prefix }, old }: States,
): readonly Finding[] {
  if (conflicts.length === 0) return findings;
  const hint = `run git merge ${shellQuoted(old.name)} on the branch, and settle it there`;
  const said = new Set<string>();
  const shown = findings.map((finding) => {
    if (finding.rule !== RULE.rule) return finding;
    said.add(finding.at.file);
    return { ...finding, hint };
  });
  const others = conflicts.flatMap((conflict) => {
    const file = bookFile(conflict, prefix);
    if (file === undefined || said.has(file)) return [];
    return [{ ...RULE, at: wholeFile(file), message: conflictWords(conflict, old.name), hint }];
  });
  return [...shown, ...others];
}

/** Conflicts in files that are not of the book, a sentence each. */
export function notesOnConflicts({ conflicts, repository: { prefix }, old }: States): string[] {
  return conflicts
    .filter((conflict) => bookFile(conflict, prefix) === undefined)
    .map((conflict) => `${conflict.path}: ${conflictWords(conflict, old.name)}.`);
}

const RULE = { rule: 'merge-conflict', severity: 'error' } as const;

function bookFile({ path }: MergeConflict, prefix: string): string | undefined {
  const file = path.startsWith(prefix) ? path.slice(prefix.length) : undefined;
  return file !== undefined && kindOf(file) ? file : undefined;
}

function conflictWords({ heldBy }: MergeConflict, base: string): string {
  if (heldBy?.into && !heldBy.from)
    return `${base} has changed this file, and the branch has deleted or renamed it`;
  if (heldBy?.from && !heldBy.into)
    return `the branch has changed this file, and ${base} has deleted or renamed it`;
  return `the branch and ${base} have changed this file in ways that git can't bring together`;
}
