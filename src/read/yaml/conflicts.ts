/** Finds where a merge left two versions of some lines in a text, and takes the versions apart. */
import type { TextSpan } from '../lines.ts';

/** One of the two versions of a stretch of lines. */
export interface MergeVersion {
  /** What the marker calls it: a branch, a commit, `HEAD`. */
  readonly label: string;
  /** Its lines, in the text with the markers. */
  readonly lines: TextSpan;
}

/** A stretch of lines between markers. */
export interface Conflict {
  /** The line that opens it. */
  readonly opening: TextSpan;
  readonly ours: MergeVersion;
  readonly theirs: MergeVersion;
  /** Whether the lines as they were before both changes stand there too. */
  readonly hasBase: boolean;
}

/** All that a merge left in a text. */
export interface Unsettled {
  /** In the order of the text. */
  readonly conflicts: readonly Conflict[];
  /** Lines of markers whose partners are gone. */
  readonly strays: readonly TextSpan[];
}

// A marker stands at the margin, where nothing of a record but its id can stand.
const MARKER = /^(?:<{7}|\|{7}|>{7})(?: .*)?\r?$|^={7}\r?$/gm;

/** What a merge left in a text; undefined where that is nothing. */
export function unsettledIn(text: string): Unsettled | undefined {
  const conflicts: Conflict[] = [];
  const strays: TextSpan[] = [];
  let open: Marker[] = [];
  for (const marker of markersIn(text)) {
    if (!goesOn(open, marker)) {
      strays.push(...open.map(withoutEnd));
      open = [];
    }
    if (open.length === 0 && marker.sign !== '<') strays.push(withoutEnd(marker));
    else open = [...open, marker];
    const conflict = marker.sign === '>' ? conflictOf(open) : undefined;
    if (conflict) conflicts.push(conflict);
    if (conflict) open = [];
  }
  strays.push(...open.map(withoutEnd));
  return conflicts.length + strays.length > 0 ? { conflicts, strays } : undefined;
}

interface Marker extends TextSpan {
  readonly sign: string;
  readonly label: string;
  /** Where the next line begins. */
  readonly next: number;
}

function* markersIn(text: string): Iterable<Marker> {
  for (const { index, 0: line } of text.matchAll(MARKER))
    yield {
      sign: line.charAt(0),
      label: line.slice(7).trim(),
      start: index,
      end: index + line.trimEnd().length,
      next: Math.min(text.length, index + line.length + 1),
    };
}

function withoutEnd({ start, end }: Marker): TextSpan {
  return { start, end };
}

/** The signs that may follow a sign. */
const FOLLOWS: Readonly<Record<string, string>> = { '<': '|=', '|': '=', '=': '>' };

function goesOn(open: readonly Marker[], { sign }: Marker): boolean {
  const last = open.at(-1);
  return last === undefined || (FOLLOWS[last.sign] ?? '').includes(sign);
}

function conflictOf(markers: readonly Marker[]): Conflict | undefined {
  const [first, second] = markers;
  const last = markers.at(-1);
  const middle = markers.find(({ sign }) => sign === '=');
  if (!first || !second || !middle || !last) return undefined;
  return {
    opening: withoutEnd(first),
    ours: { label: first.label || 'ours', lines: { start: first.next, end: second.start } },
    theirs: { label: last.label || 'theirs', lines: { start: middle.next, end: last.start } },
    hasBase: second !== middle,
  };
}

/** Which of the two versions. */
type Which = 'ours' | 'theirs';

/** The whole text as one side of the merge has it. */
export interface Side {
  readonly text: string;
  /** Where the lines of each conflict are in it, in their order. */
  readonly hunks: readonly TextSpan[];
  /** The offset in the text with the markers of an offset in this one. */
  readonly origin: (offset: number) => number;
}

/** The text with every conflict settled for one side; markers without partners stay in it. */
export function sideOf(text: string, conflicts: readonly Conflict[], which: Which): Side {
  const kept: TextSpan[] = [];
  const hunks: TextSpan[] = [];
  let [from, length] = [0, 0];
  const keep = (span: TextSpan): TextSpan => {
    kept.push(span);
    const start = length;
    length += span.end - span.start;
    return { start, end: length };
  };
  for (const conflict of conflicts) {
    keep({ start: from, end: conflict.opening.start });
    hunks.push(keep(conflict[which].lines));
    from = endOf(text, conflict);
  }
  keep({ start: from, end: text.length });
  return {
    text: kept.map(({ start, end }) => text.slice(start, end)).join(''),
    hunks,
    origin: (offset) => originIn(kept, offset),
  };
}

/** Behind the line that closes a conflict. */
function endOf(text: string, { theirs }: Conflict): number {
  const lineFeed = text.indexOf('\n', theirs.lines.end);
  return lineFeed < 0 ? text.length : lineFeed + 1;
}

function originIn(kept: readonly TextSpan[], offset: number): number {
  let left = offset;
  for (const { start, end } of kept) {
    if (left < end - start) return start + left;
    left -= end - start;
  }
  return kept.at(-1)?.end ?? 0;
}
