/**
 * Changes one record in a file's text and leaves every other byte as it is; what can't be done so,
 * or would read otherwise than meant, is refused.
 */

import {
  isMap,
  mapping,
  withValue,
  withoutValue,
  type Path,
  type Raw,
  type RawMap,
} from '../read/raw.ts';
import {
  addToBlock,
  fromLinesLike,
  insertInBlock,
  removeEdits,
  removeFromBlock,
  replaceInBlock,
  runsOf,
} from './block.ts';
import { emitRecord, flowText, keyHead, type Written } from './emit.ts';
import { addToFlow, removeFromFlow, replaceInFlow } from './flow.ts';
import { applyEdits, columnOf, insertLines, lineStart, pastLine, type Edit } from './lines.ts';
import { layoutOf, type GroupPart, type Layout, type TextPart } from './parts.ts';
import {
  follow,
  keyOf,
  nearestKey,
  pathText,
  plainIn,
  reachedBy,
  spliced,
  verified,
  withItem,
  wrapped,
  type Spliced,
  type Trail,
} from './trail.ts';

/**
 * Changes one value, or adds it: a field that is missing comes at the end of what holds it, an index
 * that is the list's length adds an item, and missing mappings and lists in between are made.
 * A changed scalar keeps its quotes, and text of several lines stays on one line in double quotes
 * unless a block scalar stood there. Refused where the record is not in the file, an item would
 * leave a hole in its list, or the path leads through a single value.
 * @param path from the file's root: `['s260308kt', 'lines', 0, 'price']`
 */
export function setField(text: string, path: Path, value: Raw): Spliced {
  const file = layoutOf(text);
  if ('refused' in file) return file;
  const trail = follow(file.root, path);
  const reached = reachedBy(trail, path);
  if (typeof reached !== 'number') return reached;
  const written = {
    key: nearestKey(path.slice(0, reached)),
    value: wrapped(path.slice(reached), value),
  };
  const plan = {
    file,
    trail,
    name: keyOf(path[reached - 1]),
    isThere: trail.entries.length === reached,
  };
  const expected = withValue(file.content, path, value);
  const changed = spliced(file, settingEdits(plan, written), expected);
  // Under a block scalar, a comment that stands far enough in would become part of it.
  return 'text' in changed
    ? changed
    : spliced(file, settingEdits(plan, { ...written, onOneLine: true }), expected);
}

/**
 * Puts a new item into a list before the one at the path, and before the comments that belong to that.
 * Refused where there is no such item.
 */
export function insertItem(text: string, path: Path, value: Raw): Spliced {
  const file = layoutOf(text);
  if ('refused' in file) return file;
  const { groups, entries } = follow(file.root, path);
  const [group, entry] = [groups.at(-1), entries.at(-1)];
  if (entries.length < path.length || group?.type !== 'list' || !entry)
    return { refused: `there is no ${pathText(path)} in the file` };
  const written = { key: nearestKey(path), value };
  const edits = group.flow
    ? [{ start: entry.start, end: entry.start, text: `${flowText(written)}, ` }]
    : insertInBlock(file.text, { group, entry }, { written, step: stepOf(file) });
  return spliced(file, edits, withItem(file.content, path, value));
}

/**
 * Removes a field or a list item, with the comment lines directly above it in its column and the
 * comment behind it. What held it stays: if it was the only one, as `{}` or `[]`.
 */
export function removeField(text: string, path: Path): Spliced {
  const file = layoutOf(text);
  if ('refused' in file) return file;
  const trail = follow(file.root, path);
  if (trail.entries.length < path.length || path.length === 0)
    return { refused: `there is no ${pathText(path)} in the file` };
  const edits = removalEdits(file, trail, path);
  return spliced(file, edits, withoutValue(file.content, path));
}

/**
 * Removes a record with the comments that belong to it: the comment lines directly above it at its
 * own margin, except those that begin on the file's first line, which are about the file, and the
 * comment lines below it that stand further in than the margin. Of blank lines on both sides, those
 * below go too, so that the rest stays evenly spaced.
 */
export function removeRecord(text: string, id: string): Spliced {
  return removeRecords(text, [id]);
}

/** Removes several records likewise; refused where one of them is not in the file. */
export function removeRecords(text: string, ids: readonly string[]): Spliced {
  const file = layoutOf(text);
  if ('refused' in file) return file;
  const { root, content } = file;
  const group = root?.type === 'map' ? root : undefined;
  const missing = ids.find((id) => !group || !follow(group, [id]).entries[0]);
  if (!group || missing !== undefined)
    return { refused: `there is no record ${missing ?? ''} in the file` };
  if (group.flow && ids.length > 1) return removedInTurn(text, ids);
  const gone = new Set(ids);
  const edits = runsOf(file, group, gone).flatMap((run) => removeEdits(file, group, run));
  const rest = Object.entries(isMap(content) ? content : {}).filter(([id]) => !gone.has(id));
  return spliced(file, edits, mapping(rest));
}

function removedInTurn(text: string, ids: readonly string[]): Spliced {
  return ids.reduce<Spliced>((so, id) => ('text' in so ? removeRecord(so.text, id) : so), { text });
}

interface Setting {
  readonly file: Layout;
  readonly trail: Trail;
  /** The key of what is to be written; absent for a list item. */
  readonly name: string | undefined;
  /** Whether it takes the place of another value. */
  readonly isThere: boolean;
}

function settingEdits({ file, trail, name, isThere }: Setting, written: Written): Edit[] {
  const entry = trail.entries.at(-1);
  const group = trail.groups.at(-1);
  const put = { written, step: stepOf(file) };
  if (isThere && entry)
    return trail.groups.some(({ flow }) => flow)
      ? [replaceInFlow(file.text, entry, written)]
      : replaceInBlock(file.text, entry, put);
  if (!group) return [];
  if (!group.flow) return addToBlock(file.text, group, { ...put, name });
  const head = name === undefined ? '' : `${keyHead(name, true)} `;
  return addToFlow(file.text, group, head + flowText(written));
}

function removalEdits(file: Layout, { groups, entries }: Trail, path: Path): Edit[] {
  const [group, entry] = [groups.at(-1), entries.at(-1)];
  if (!group || !entry) return [];
  const index = group.entries.indexOf(entry);
  if (group.flow) return removeFromFlow(file.text, group, index);
  const holder = entries.at(-2);
  if (group.entries.length > 1 || !holder) return removeFromBlock(file.text, group, index);
  const value = group.type === 'list' ? [] : {};
  const written = { key: nearestKey(path), value };
  return replaceInBlock(file.text, holder, { written, step: stepOf(file) });
}

// The spaces of one level, as the file's first nested mapping has them.
function stepOf({ text, root }: Layout): number {
  if (root?.type !== 'map') return 2;
  const inner = root.entries
    .map(({ value }) => value)
    .find((value) => value.type === 'map' && !value.flow);
  const step = inner ? columnOf(text, inner.start) - columnOf(text, root.start) : 0;
  return step > 0 ? step : 2;
}

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
