/** Which problems only the new state of a book has, and which only the old one had. */
import { countOf as countAll } from '../fold.ts';
import type { Finding, Severity } from '../problem.ts';

/** What separates two lists of findings. */
interface ProblemChanges {
  readonly brought: readonly Finding[];
  readonly mended: readonly Finding[];
  /** How many are in both, whatever their line. */
  readonly kept: number;
}

/**
 * Compares findings by rule, record and message, not by line. One that says the same of the same record
 * with other figures is in both. `renamed` gives the new id of a record for its old one.
 */
export function problemChanges(
  before: readonly Finding[],
  after: readonly Finding[],
  renamed: ReadonlyMap<string, string> = new Map(),
): ProblemChanges {
  const old = before.map((finding) => ({ finding, said: saidOf(finding, renamed) }));
  const now = after.map((finding) => ({ finding, said: saidOf(finding) }));
  takeAlike(old, now, ({ said }) => said);
  takeAlike(old, now, ({ said }) => said.replace(/\d+(?:[.,]\d+)*/g, '0'));
  return {
    brought: now.map(({ finding }) => finding),
    mended: old.map(({ finding }) => finding),
    kept: after.length - now.length,
  };
}

/** How many of these are errors or warnings. */
export function countBySeverity(findings: readonly Finding[], severity: Severity): number {
  return countAll(findings.filter((finding) => finding.severity === severity));
}

interface SaidFinding {
  readonly finding: Finding;
  /** Rule, place without line, and message. */
  readonly said: string;
}

function saidOf(
  { rule, at, message }: Finding,
  renamed: ReadonlyMap<string, string> = new Map(),
): string {
  const id = 'path' in at ? at.path[0] : undefined;
  const record = id === undefined ? at.file : String(id);
  const words = [record, message].map((text) =>
    renamed.size === 0
      ? text
      : text.replace(/[A-Za-z][A-Za-z0-9-]*/g, (word) => renamed.get(word) ?? word),
  );
  return [rule, ...words].join('\n');
}

/** Takes findings that say the same out of both lists. */
function takeAlike(
  old: SaidFinding[],
  now: SaidFinding[],
  keyOf: (said: SaidFinding) => string,
): void {
  const counts = new Map<string, number>();
  for (const each of old) counts.set(keyOf(each), (counts.get(keyOf(each)) ?? 0) + 1);
  const taken = new Map<string, number>();
  const stays = now.filter((each) => {
    const key = keyOf(each);
    const used = taken.get(key) ?? 0;
    if (used >= (counts.get(key) ?? 0)) return true;
    taken.set(key, used + 1);
    return false;
  });
  now.splice(0, now.length, ...stays);
  const left = old.filter((each) => {
    const used = taken.get(keyOf(each)) ?? 0;
    taken.set(keyOf(each), used - 1);
    return used <= 0;
  });
  old.splice(0, old.length, ...left);
}
