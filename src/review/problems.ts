/** Which problems only the new state of a book has, and which only the old one had. */
import { countOf as countAll, untoldWords } from '../fold.ts';
import { grouped } from '../grouping.ts';
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
  const old = before
    .filter(isToldAlone)
    .map((finding) => ({ finding, said: saidOf(finding, renamed) }));
  const now = after.filter(isToldAlone).map((finding) => ({ finding, said: saidOf(finding) }));
  takeAlike(old, now, ({ said }) => said);
  takeAlike(old, now, ({ said }) => said.replace(/\d+(?:[.,]\d+)*/g, '0'));
  const was = { told: old.map(({ finding }) => finding), all: before };
  const is = { told: now.map(({ finding }) => finding), all: after };
  const brought = withCounted(is, was);
  return { brought, mended: withCounted(was, is), kept: countAll(after) - countAll(brought) };
}

function isToldAlone({ untold }: Finding): boolean {
  return untold === undefined;
}

/** The findings of one state, and those told of them that the other does not have. */
interface OneState {
  readonly told: readonly Finding[];
  readonly all: readonly Finding[];
}

/**
 * What one state has that the other does not. Of very many in a file some are only counted: what is told
 * here may be among those counted there, so of the counted ones only by how many they are more is new.
 */
function withCounted(own: OneState, other: OneState): readonly Finding[] {
  const [here, there] = [countedIn(own), countedIn(other)];
  for (const [now, was] of movedCounts(here, there)) there.set(now, was);
  const told = grouped(own.told, sortOf);
  const toldThere = grouped(other.told, sortOf);
  return [...new Set([...told.keys(), ...here.keys()])].flatMap((sort) => {
    const mine = told.get(sort) ?? [];
    const counted = here.get(sort);
    const more = (counted?.untold ?? 0) - (there.get(sort)?.untold ?? 0);
    if (more <= 0) return mine.slice(0, Math.max(0, mine.length + more));
    const count = more - (toldThere.get(sort)?.length ?? 0);
    if (!counted || count <= 0) return mine;
    return [...mine, { ...counted, ...untoldWords({ ...counted, count }), untold: count }];
  });
}

/**
 * What counts the problems of a file that only the one state has, with what counts those of the same rule
 * in a file that only the other has: the file was moved.
 */
function movedCounts(
  here: ReadonlyMap<string, Finding>,
  there: ReadonlyMap<string, Finding>,
): [string, Finding][] {
  const waiting = grouped(
    [...there].filter(([sort]) => !here.has(sort)).map(([, finding]) => finding),
    sortAnywhere,
  );
  return [...here].flatMap(([sort, finding]): [string, Finding][] => {
    const was = there.has(sort) ? undefined : waiting.get(sortAnywhere(finding))?.shift();
    return was ? [[sort, was]] : [];
  });
}

function sortAnywhere({ rule, severity }: Finding): string {
  return `${rule}\n${severity}`;
}

/** The findings that count others, by their sort. */
function countedIn({ all }: OneState): Map<string, Finding> {
  return new Map(all.filter((each) => !isToldAlone(each)).map((each) => [sortOf(each), each]));
}

function sortOf({ rule, severity, at }: Finding): string {
  return [at.file, rule, severity].join('\n');
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
