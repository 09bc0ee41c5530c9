/**
 * Changes one record in a file's text and leaves every other byte as it is; what can't be done so,
 * or would read otherwise than meant, is refused.
 */

import { isMap, mapping, withValue, withoutValue, type Path, type Raw } from '../read/raw.ts';
import {
  addToBlock,
  insertInBlock,
  removeEdits,
  removeFromBlock,
  replaceInBlock,
  runsOf,
} from './block.ts';
import { flowText, keyHead, type Written } from './emit.ts';
import { addToFlow, removeFromFlow, replaceInFlow } from './flow.ts';
import { columnOf, type Edit } from './lines.ts';
import { layoutOf, type Layout } from './parts.ts';
import {
  follow,
  keyOf,
  nearestKey,
  pathText,
  reachedBy,
  spliced,
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
