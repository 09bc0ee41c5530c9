/** Puts a record at the end of a file; of a plain one only the end is looked at closely, for files of a month grow long. */
import { isMap, mapping, withValue } from '../read/at-path.ts';
import type { RawMap } from '../read/raw.ts';
import { emitRecord, flowText, keyHead } from './emit.ts';
import { addToFlow } from './flow.ts';
import { applyEdits, columnOf, insertLines, lineStart, pastLine, type Edit } from './lines.ts';
import { layoutOf, type GroupPart, type Layout, type Part } from './parts.ts';
import { fromLinesLike } from './remove.ts';
import { plainIn, verified, type Spliced } from './verify.ts';

/**
 * Puts a record at the end of a file, after everything that stands there; in a file that is one
 * `{ }`, on one line inside it. The file's line ends and margin are kept. Refused where the id is
 * taken, without regard to capitals, or the file is no mapping of records.
 */
export function appendRecord(text: string, id: string, record: RawMap): Spliced {
  const plain = plainIn(text);
  const file = plain ? plainEnd(text, plain) : layoutOf(text);
  if ('refused' in file) return file;
  const { content, root } = file;
  if (!isMap(content)) return { refused: 'the file is not a mapping of records' };
  const small = id.toLowerCase();
  const taken = Object.keys(plain ?? content).find((key) => key.toLowerCase() === small);
  if (taken !== undefined) return { refused: `the file has a record ${taken} already` };
  const changed = file.mark + applyEdits(file.text, appendEdits(file, id, record));
  // A record at the margin changes nothing of what the fast reader read above it.
  const from = plain && root ? root.start : 0;
  const end = verified(changed.slice(from), withValue(content, [id], record));
  return 'text' in end ? { text: changed } : end;
}

/** A text that the fast reader vouches for, as if it began with its last two records. */
function plainEnd(text: string, plain: RawMap): Layout {
  const last = Object.entries(plain).slice(-2);
  const starts = last.map(([id]) => text.lastIndexOf(`\n${id}:`) + 1);
  const entries = starts.map((start, at) => {
    // Each of its lines is content, a comment or blank.
    const end = fromLinesLike(/^\s*(?:#|$)/, {
      text,
      start: starts[at + 1] ?? text.length,
      floor: start,
    });
    return { start, end, value: { type: 'other', start, end } } as const;
  });
  const [start] = starts;
  const content = mapping(last);
  const file = { mark: '', text, content, close: text.length };
  if (start === undefined) return file;
  return {
    ...file,
    root: { type: 'map', flow: false, start, end: entries.at(-1)?.end ?? start, entries },
  };
}

/**
 * After everything that stands there, comments too, but before the line `...`. A blank line comes
 * between unless the last two records have none, and after a comment, which would else seem to be
 * about the new record.
 */
function appendEdits(file: Layout, id: string, record: RawMap): Edit[] {
  const group = file.root?.type === 'map' ? file.root : undefined;
  if (group?.flow) {
    const line = `${keyHead(id, true)} ${flowText({ key: id, value: record })}`;
    return addToFlow(file.text, group, line);
  }
  const margin = ' '.repeat(group ? columnOf(file.text, group.start) : 0);
  const lines = emitRecord(id, record).trimEnd().split('\n');
  const indented = lines.map((line) => (line === '' ? '' : margin + line));
  const gap = needsGap(file, group) ? [''] : [];
  return [insertLines(file.text, file.close, [...gap, ...indented])];
}
function needsGap({ text, close }: Layout, group: GroupPart | undefined): boolean {
  const above = text.slice(0, close).trimEnd();
  const last = text.slice(lineStart(text, above.length), close);
  if (last.split('\n').length > 2) return false;
  const end = group ? pastLine(text, group.end) : 0;
  if (close > end && last.trimStart().startsWith('#')) return true;
  const [former, latest] = group?.entries.slice(-2) ?? [];
  if (!group || !former || keepsBlankLines(text, group)) return false;
  if (!latest) return true;
  return hasBlankLine(text.slice(pastLine(text, former.end), lineStart(text, latest.start)));
}

function hasBlankLine(lines: string): boolean {
  return lines.split('\n').some((line, at, all) => at < all.length - 1 && line.trim() === '');
}

// A block scalar marked with + takes in the blank lines under it.
function keepsBlankLines(text: string, part: Part): boolean {
  if (part.type === 'other') return false;
  if (part.type === 'scalar')
    return part.style === 'block' && /^[|>]\d?\+/.test(text.slice(part.start, part.start + 3));
  const last = part.entries.at(-1);
  return last !== undefined && keepsBlankLines(text, last.value);
}
