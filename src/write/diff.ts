/** The difference between two texts as a unified diff, for `--dry-run`. */

/** Lines of context around a change. */
const CONTEXT = 3;
/** Beyond so many changed lines the search for the shortest diff stops, and all is one change. */
const MOST_CHANGES = 1000;

/** A line of the diff: its mark, and the line with its own line end. */
interface DiffLine {
  readonly mark: ' ' | '-' | '+';
  readonly line: string;
}

/** A file before and after a change; undefined where it isn't there. */
export interface FileChange {
  readonly file: string;
  readonly before: string | undefined;
  readonly after: string | undefined;
}

/**
 * A unified diff with three lines of context, as few changed lines as can be, and the nearest line
 * at the margin (a record's id) behind each hunk's head; empty where nothing changed.
 */
export function unifiedDiff({ file, before, after }: FileChange): string {
  const old = linesWithEnds(before ?? '');
  const now = linesWithEnds(after ?? '');
  const hunks = hunksOf(diffLines(old, now), old);
  if (hunks.length === 0) return '';
  const from = before === undefined ? '/dev/null' : `a/${file}`;
  const to = after === undefined ? '/dev/null' : `b/${file}`;
  return `--- ${from}\n+++ ${to}\n${hunks.join('')}`;
}

// Each line with its line feed; the last may lack it.
function linesWithEnds(text: string): string[] {
  return text.match(/[^\n]*\n|[^\n]+$/g) ?? [];
}

function diffLines(old: readonly string[], now: readonly string[]): DiffLine[] {
  const shorter = Math.min(old.length, now.length);
  let head = 0;
  while (head < shorter && old[head] === now[head]) head++;
  let tail = 0;
  while (tail < shorter - head && old.at(-1 - tail) === now.at(-1 - tail)) tail++;
  const middle = shortest(old.slice(head, old.length - tail), now.slice(head, now.length - tail));
  const same = (lines: readonly string[]) => marked(' ', lines);
  return [...same(old.slice(0, head)), ...middle, ...same(old.slice(old.length - tail))];
}

function marked(mark: DiffLine['mark'], lines: readonly string[]): DiffLine[] {
  return lines.map((line) => ({ mark, line }));
}

interface DiffSides {
  readonly old: readonly string[];
  readonly now: readonly string[];
}

/** Furthest old line reached on each diagonal (old line − new line). */
type Reach = ReadonlyMap<number, number>;

/**
 * The shortest way from one list of lines to the other, by Myers' greedy algorithm ("An O(ND)
 * Difference Algorithm and Its Variations", 1986).
 */
function shortest(old: readonly string[], now: readonly string[]): DiffLine[] {
  const rounds = search({ old, now });
  return rounds ? wayBack({ old, now }, rounds) : [...marked('-', old), ...marked('+', now)];
}

// The reach before each round; a round allows one more change than the one before.
function search(sides: DiffSides): Reach[] | undefined {
  const { old, now } = sides;
  const rounds: Reach[] = [];
  let reach: Reach = new Map([[1, 0]]);
  for (let changes = 0; changes <= Math.min(old.length + now.length, MOST_CHANGES); changes++) {
    rounds.push(reach);
    reach = nextReach(sides, reach, changes);
    if (reach.get(old.length - now.length) === old.length) return rounds;
  }
  return undefined;
}

function nextReach({ old, now }: DiffSides, reach: Reach, changes: number): Reach {
  const next = new Map<number, number>();
  for (let diagonal = -changes; diagonal <= changes; diagonal += 2) {
    const from = cameFrom(reach, diagonal, changes);
    let x = (reach.get(from) ?? 0) + (from < diagonal ? 1 : 0);
    while (x < old.length && x - diagonal < now.length && old[x] === now[x - diagonal]) x++;
    next.set(diagonal, x);
  }
  return next;
}

// The neighbouring diagonal that the furthest way comes from: the one above adds a line, the one
// below drops one.
function cameFrom(reach: Reach, diagonal: number, changes: number): number {
  const lower = reach.get(diagonal - 1) ?? -1;
  const upper = reach.get(diagonal + 1) ?? -1;
  if (diagonal === -changes) return diagonal + 1;
  return diagonal !== changes && lower < upper ? diagonal + 1 : diagonal - 1;
}

function wayBack({ old, now }: DiffSides, rounds: readonly Reach[]): DiffLine[] {
  const lines: DiffLine[] = [];
  let x = old.length;
  let y = now.length;
  const keep = (until: number) => {
    while (x > until) lines.push({ mark: ' ', line: old[--x] ?? '' });
  };
  for (const [changes, reach] of [...rounds.entries()].reverse()) {
    const from = cameFrom(reach, x - y, changes);
    const diagonal = x - y;
    const start = (reach.get(from) ?? 0) + (from < diagonal ? 1 : 0);
    keep(start);
    y = x - diagonal;
    if (changes === 0) break;
    if (from < diagonal) lines.push({ mark: '-', line: old[--x] ?? '' });
    else lines.push({ mark: '+', line: now[--y] ?? '' });
  }
  return removedFirst(lines.reverse());
}

// Within one change the old lines come before the new ones.
function removedFirst(lines: readonly DiffLine[]): DiffLine[] {
  const ordered: DiffLine[] = [];
  const added: DiffLine[] = [];
  for (const line of lines) {
    if (line.mark === ' ') ordered.push(...added.splice(0));
    (line.mark === '+' ? added : ordered).push(line);
  }
  return [...ordered, ...added];
}

function hunksOf(lines: readonly DiffLine[], old: readonly string[]): string[] {
  const hunks: string[] = [];
  const changed = lines.flatMap((line, at) => (line.mark === ' ' ? [] : [at]));
  let first = 0;
  changed.forEach((at, index) => {
    const next = changed[index + 1];
    if (next !== undefined && next - at <= 2 * CONTEXT + 1) return;
    const start = Math.max((changed[first] ?? 0) - CONTEXT, 0);
    hunks.push(hunkText(lines, { start, end: Math.min(at + CONTEXT + 1, lines.length) }, old));
    first = index + 1;
  });
  return hunks;
}

function hunkText(
  lines: readonly DiffLine[],
  { start, end }: { readonly start: number; readonly end: number },
  old: readonly string[],
): string {
  const above = lines.slice(0, start);
  const inside = lines.slice(start, end);
  const range = (other: DiffLine['mark']) => {
    const count = inside.filter(({ mark }) => mark !== other).length;
    const first = above.filter(({ mark }) => mark !== other).length + (count > 0 ? 1 : 0);
    return count === 1 ? String(first) : `${first},${count}`;
  };
  const before = old.slice(0, above.filter(({ mark }) => mark !== '+').length);
  const heading = before
    .findLast((line) => /^[A-Za-z_$]/.test(line))
    ?.slice(0, 80)
    .trimEnd();
  const head = `@@ -${range('+')} +${range('-')} @@${heading === undefined ? '' : ` ${heading}`}`;
  return `${head}\n${inside.map(diffLineText).join('')}`;
}

function diffLineText({ mark, line }: DiffLine): string {
  return line.endsWith('\n') ? mark + line : `${mark}${line}\n\\ No newline at end of file\n`;
}
