/** Edits inside `{ }` and `[ ]`: add, change or remove one entry, with the commas around it. */
import { flowText, type Written } from './emit.ts';
import {
  beginsLine,
  breaksBetween,
  endsContentLine,
  lineBreakOf,
  lineStart,
  indentOf,
  pastLine,
  type Edit,
} from './lines.ts';
import { quotesOf, type EntryPart, type GroupPart } from './parts.ts';

/** Adds an entry after the last: on a line of its own where the closing bracket has one. */
export function addToFlow(text: string, group: GroupPart, entry: string): Edit[] {
  const last = group.entries.at(-1);
  if (!last) return [addFirst(text, group, entry)];
  const from = last.comma ?? last.end;
  if (breaksBetween(text, from, group.end - 1)) return addLine(text, group, entry);
  const place = last.comma === undefined ? last.end : last.comma + 1;
  const added = last.comma === undefined ? `, ${entry}` : ` ${entry},`;
  return [{ start: place, end: place, text: added }];
}

function addFirst(text: string, group: GroupPart, entry: string): Edit {
  const inside = { start: group.start + 1, end: group.end - 1 };
  if (breaksBetween(text, inside.start, inside.end)) return lineBeforeClose(text, group, entry);
  return { ...inside, text: group.type === 'map' ? ` ${entry} ` : entry };
}

function addLine(text: string, group: GroupPart, entry: string): Edit[] {
  const last = group.entries.at(-1);
  if (last?.comma !== undefined) return [lineBeforeClose(text, group, `${entry},`)];
  const end = last?.end ?? group.start;
  return [{ start: end, end, text: ',' }, lineBeforeClose(text, group, entry)];
}

function lineBeforeClose(text: string, group: GroupPart, line: string): Edit {
  const close = group.end - 1;
  const last = group.entries.at(-1);
  const margin =
    last && beginsLine(text, last.start)
      ? indentOf(text, last.start)
      : `${indentOf(text, close)}  `;
  const start = lineStart(text, close);
  return { start, end: start, text: margin + line + lineBreakOf(text) };
}

/** Removes an entry with its comma; an entry with lines of its own goes with the whole lines. */
export function removeFromFlow(text: string, group: GroupPart, index: number): Edit[] {
  const entry = group.entries[index];
  if (!entry) return [];
  const before = group.entries[index - 1]?.comma;
  const spare = entry.comma === undefined && before !== undefined;
  const comma = spare ? [{ start: before, end: before + 1, text: '' }] : [];
  return [...comma, removal(text, group, entry)];
}

function removal(text: string, group: GroupPart, entry: EntryPart): Edit {
  const end = entry.comma === undefined ? entry.end : entry.comma + 1;
  if (beginsLine(text, entry.start) && endsContentLine(text, end))
    return { start: lineStart(text, entry.start), end: pastLine(text, end), text: '' };
  if (group.entries.length === 1 && !breaksBetween(text, group.start, group.end))
    return { start: group.start + 1, end: group.end - 1, text: '' };
  if (entry === group.entries.at(-1))
    return { start: backOverBlanks(text, entry.start), end, text: '' };
  const blanks = /^[ \t]*/.exec(text.slice(end, end + 200))?.[0].length ?? 0;
  return { start: entry.start, end: end + blanks, text: '' };
}

/** The offset of the blanks that stand directly before an offset. */
export function backOverBlanks(text: string, offset: number): number {
  let start = offset;
  while (text[start - 1] === ' ' || text[start - 1] === '\t') start--;
  return start;
}

/** Puts a value in the place of an entry's value; a scalar keeps its quotes. */
export function replaceInFlow(text: string, entry: EntryPart, written: Written): Edit {
  const { start, end } = entry.value;
  const value = flowText(written, quotesOf(entry.value));
  if (start < end || backOverBlanks(text, start) < start) return { start, end, text: value };
  const lead = entry.key !== undefined && entry.mark === undefined ? ': ' : ' ';
  return { start, end, text: lead + value };
}
