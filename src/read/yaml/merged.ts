/** Reads a file in which a merge left two versions: what both agree on, and what they differ in. */
import { MOST_TOLD } from '../../fold.ts';
import type { Finding, Place } from '../../problem.ts';
import { sideOf, type Conflict, type Side, type Unsettled } from './conflicts.ts';
import { differencesOf, type Difference } from './differences.ts';
import { SETTINGS_FILE } from '../kinds.ts';
import { placeInText, type TextSpan } from '../lines.ts';
import {
  manyFinding,
  mergeFinding,
  strayFinding,
  type Disputed,
  type Meeting,
} from './merge-words.ts';
import { newTable, type FileText, type Parsed, type RawMap } from '../raw.ts';
import { cutRecords } from '../records.ts';
import { placesIn } from './spots.ts';

/** Reads a text without markers. */
type Parse = (source: FileText) => Parsed;

/**
 * Reads a file that holds markers of a merge. Records that are the same in both versions are given,
 * the others left out; of settings, ours. With markers that have lost their partners nothing is
 * given. Each conflict is a finding (`merge-conflict`); beside them what is wrong outside of them.
 */
export function parseMerged(source: FileText, unsettled: Unsettled, parse: Parse): Parsed {
  const { conflicts, strays } = unsettled;
  if (conflicts.length + strays.length > MOST_TOLD)
    return { root: newTable(), odd: false, findings: [manyFinding(source, unsettled)] };
  const [ours, theirs] = (['ours', 'theirs'] as const).map((which) =>
    readSide(source, sideOf(source.text, conflicts, which), parse),
  ) as [ReadSide, ReadSide];
  const meetings = conflicts.map((conflict, index) => meetingOf([ours, theirs], conflict, index));
  const found = [
    ...strays.map((stray) => strayFinding(source, stray)),
    ...meetings.map((meeting) => mergeFinding(source, meeting)),
  ];
  if (strays.length > 0) return { root: newTable(), odd: false, findings: found };
  const agreed = source.file === SETTINGS_FILE ? ours.root : sameIn(ours.root, theirs.root);
  return {
    root: agreed,
    odd: ours.odd || theirs.odd,
    findings: [...found, ...outside(source, ours)],
  };
}

type MergeSides = readonly [ours: ReadSide, theirs: ReadSide];

function meetingOf(sides: MergeSides, conflict: Conflict, index: number): Meeting {
  const ids = new Set(sides.flatMap(({ met }) => (met[index] ?? []).map(({ id }) => id)));
  const sorted = [...ids].map((id) => sort(sides, id)).filter(isDisputed);
  const [oursAlone, theirsAlone] = [
    sorted.find(({ inTheirs }) => !inTheirs),
    sorted.find(({ inOurs }) => !inOurs),
  ];
  const records = sorted.map((record) => {
    const { id, inOurs, inTheirs } = record;
    if (inOurs && inTheirs) return record;
    // Of two records that came to one place, what sets them apart is worth more than all there is.
    const [mine, other] = [
      sides[0].root[inOurs ? id : (oursAlone?.id ?? '')],
      sides[1].root[inTheirs ? id : (theirsAlone?.id ?? '')],
    ];
    return { ...record, differences: differencesOf(mine ?? {}, other ?? {}) };
  });
  return {
    conflict,
    records: records.map((record) => ({ ...record, differences: within(sides, record, index) })),
    isWhole: sides.every((side) => standsAlone(side, index)),
  };
}

/** How a record stands on either side. */
function sort(sides: MergeSides, id: string): Disputed {
  const [inOurs, inTheirs] = sides.map(({ ids }) => ids.has(id));
  const [ours, theirs] = sides.map(({ root }) => root[id]);
  const differences = differencesOf(ours, theirs);
  return { id, inOurs: inOurs === true, inTheirs: inTheirs === true, differences };
}

function isDisputed({ inOurs, inTheirs, differences }: Disputed): boolean {
  return inOurs !== inTheirs || differences.length > 0;
}

/** Those of a record's differences that lie in one conflict; all where none can be told to. */
function within(
  sides: MergeSides,
  { id, differences }: Disputed,
  index: number,
): readonly Difference[] {
  if (sides.every(({ ids }) => (ids.get(id) ?? 0) < 2)) return differences;
  const having = sides.filter(({ root }) => root[id] !== undefined);
  const inside = differences.filter(({ path }) =>
    having.some((side) => liesIn(side, index, [id, ...path])),
  );
  return inside.length > 0 ? inside : differences;
}

/** A record that begins with a simple word, from its id to the last line of its content. */
interface MergedStretch extends TextSpan {
  readonly id: string;
}

/** One side of the merge, read. */
interface ReadSide extends Parsed, Side {
  /** Of each record, how many conflicts it has lines in. */
  readonly ids: ReadonlyMap<string, number>;
  /** The records that have lines in each of the conflicts. */
  readonly met: readonly (readonly MergedStretch[])[];
  readonly lookUp: ReturnType<typeof placesIn>;
}

function readSide({ file }: FileText, side: Side, parse: Parse): ReadSide {
  const { text, hunks } = side;
  const stretches = cutRecords(text).records.flatMap(({ id, start, end }) =>
    id === undefined ? [] : [{ id, start, end: contentEnd(text, { start, end }) }],
  );
  const met = meetingsOf(stretches, hunks);
  const ids = new Map(stretches.map(({ id }) => [id, 0]));
  for (const { id } of met.flat()) ids.set(id, (ids.get(id) ?? 0) + 1);
  return { ...side, ...parse({ file, text }), ids, met, lookUp: placesIn(file, text) };
}

/** Both lists are in the order of the text, so each is gone through once. */
function meetingsOf(
  stretches: readonly MergedStretch[],
  hunks: readonly TextSpan[],
): MergedStretch[][] {
  let first = 0;
  return hunks.map((hunk) => {
    while ((stretches[first]?.end ?? Infinity) <= hunk.start) first += 1;
    let last = first;
    while ((stretches[last]?.start ?? Infinity) < hunk.end) last += 1;
    return stretches.slice(first, last);
  });
}

const IDLE_LINE = /^[ \t]*(?:#.*)?\r?\n?$/;

/** Where a record ends without the comments and blank lines that follow it. */
function contentEnd(text: string, { start, end }: TextSpan): number {
  let at = end;
  while (at > start) {
    const line = text.lastIndexOf('\n', at - 2) + 1;
    if (line <= start || !IDLE_LINE.test(text.slice(line, at))) break;
    at = line;
  }
  return at;
}

/** Whether a side has whole records in a conflict, or nothing: then its lines make sense alone. */
function standsAlone({ met, hunks }: ReadSide, index: number): boolean {
  const hunk = hunks[index];
  if (!hunk) return true;
  return (met[index] ?? []).every(({ start, end }) => hunk.start <= start && end <= hunk.end);
}

function liesIn(
  { text, hunks, lookUp }: ReadSide,
  index: number,
  path: Difference['path'],
): boolean {
  const hunk = hunks[index];
  if (!hunk) return false;
  const { line } = lookUp({ file: '', path, on: 'key' });
  const start = lineOffset(text, line);
  return hunk.start <= start && start < hunk.end;
}

/** The records that both sides have, and have the same. */
function sameIn(ours: RawMap, theirs: RawMap): RawMap {
  const same = newTable();
  for (const [id, record] of Object.entries(ours))
    if (differencesOf(record, theirs[id]).length === 0) same[id] = record;
  return same;
}

/** What is wrong in the lines that both sides have, with its places in the text with the markers. */
function outside({ file, text }: FileText, { findings, hunks, ...side }: ReadSide): Finding[] {
  const move = (at: Place): Place => {
    const start = side.origin(lineOffset(side.text, at.line)) + at.column - 1;
    return placeInText(file, text, { start, end: start + at.width });
  };
  return findings.flatMap(({ at, related = [], ...finding }) => {
    if (!('line' in at)) return [];
    const offset = lineOffset(side.text, at.line);
    if (hunks.some(({ start, end }) => start <= offset && offset < end)) return [];
    const moved = related.map((other) => ({
      ...other,
      at: 'line' in other.at ? move(other.at) : other.at,
    }));
    return [{ ...finding, at: move(at), related: moved }];
  });
}

/** Where a line begins, counted from 1. */
function lineOffset(text: string, line: number): number {
  let at = 0;
  for (let count = 1; count < line; count++) at = text.indexOf('\n', at) + 1;
  return at;
}
