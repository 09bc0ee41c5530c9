/** Puts records at the end of a file, and leaves every byte that stands there as it is. */
import { isMap, mapping, type RawMap } from '../read/raw.ts';
import { fromLinesLike } from './block.ts';
import { emitRecord, flowText, keyHead } from './emit.ts';
import { addToFlow } from './flow.ts';
import { applyEdits, columnOf, insertLines, lineStart, pastLine, type Edit } from './lines.ts';
import { layoutOf, type GroupPart, type Layout, type TextPart } from './parts.ts';
import { plainIn, verified, type Spliced } from './trail.ts';

/** A record that is put into a file. */
export type Appended = readonly [id: string, record: RawMap];

/**
 * Puts a record at the end of a file, after everything that stands there; in a file that is one
 * `{ }`, on one line inside it. The file's line ends and margin are kept. Refused where the id is
 * taken, without regard to capitals, or the file is no mapping of records.
 */
export function appendRecord(text: string, id: string, record: RawMap): Spliced {
  return appendTogether(text, [[id, record]]);
}

/** Puts records at the end of a file in their order, as if one after the other. */
export function appendRecords(text: string, records: readonly Appended[]): Spliced {
  // The first ones settle whether blank lines stand between records.
  const begun = oneByOne(text, records.slice(0, SETTLING));
  const rest = records.slice(SETTLING);
  if (rest.length === 0 || 'refused' in begun || isInBraces(begun.text))
    return 'refused' in begun ? begun : oneByOne(begun.text, rest);
  return appendTogether(begun.text, rest);
}

const SETTLING = 3;

function oneByOne(text: string, records: readonly Appended[]): Spliced {
  return records.reduce<Spliced>(
    (so, [id, record]) => ('text' in so ? appendRecord(so.text, id, record) : so),
    { text },
  );
}

function isInBraces(text: string): boolean {
  if (plainIn(text)) return false;
  const file = layoutOf(text);
  return 'refused' in file || (file.root?.type === 'map' && file.root.flow);
}

function appendTogether(text: string, records: readonly Appended[]): Spliced {
  const plain = plainIn(text);
  const file = plain ? plainEnd(text, plain) : layoutOf(text);
  if ('refused' in file) return file;
  const { content, root } = file;
  if (!isMap(content)) return { refused: 'the file is not a mapping of records' };
  const small = new Set(records.map(([id]) => id.toLowerCase()));
  const taken = Object.keys(plain ?? content).find((key) => small.has(key.toLowerCase()));
  if (taken !== undefined) return { refused: `the file has a record ${taken} already` };
  const changed = file.mark + applyEdits(file.text, appendEdits(file, records));
  // A record at the margin changes nothing of what the fast reader read above it.
  const from = plain && root ? root.start : 0;
  const expected = mapping([...Object.entries(content), ...records]);
  const end = verified(changed.slice(from), expected);
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
function appendEdits(file: Layout, records: readonly Appended[]): Edit[] {
  const group = file.root?.type === 'map' ? file.root : undefined;
  if (group?.flow)
    return records.flatMap(([id, value]) =>
      addToFlow(file.text, group, `${keyHead(id, true)} ${flowText({ key: id, value })}`),
    );
  const margin = ' '.repeat(group ? columnOf(file.text, group.start) : 0);
  const gap = needsGap(file, group) ? [''] : [];
  const lines = records.flatMap(([id, record]) => {
    const own = emitRecord(id, record).trimEnd().split('\n');
    return [...gap, ...own.map((line) => (line === '' ? '' : margin + line))];
  });
  return [insertLines(file.text, file.close, lines)];
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
function keepsBlankLines(text: string, part: TextPart): boolean {
  if (part.type === 'other') return false;
  if (part.type === 'scalar')
    return part.style === 'block' && /^[|>]\d?\+/.test(text.slice(part.start, part.start + 3));
  const last = part.entries.at(-1);
  return last !== undefined && keepsBlankLines(text, last.value);
}
