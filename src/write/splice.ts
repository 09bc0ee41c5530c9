/**
 * Changes one record in a file's text and leaves every other byte as it is; what can't be done so,
 * or would read otherwise than meant, is refused.
 */
import type { Raw } from '../read/raw.ts';
import { addToBlock, removeFromBlock, replaceInBlock, type Put } from './block.ts';
import { flowText, keyHead, type IsNumberKey } from './emit.ts';
import { addToFlow, removeFromFlow, replaceInFlow } from './flow.ts';
import { applyEdits, columnOf, type Edit } from './lines.ts';
import { layoutOf, type Layout, type Part } from './parts.ts';
import { appendEdits, removeEdits } from './records.ts';
import { follow, keyOf, nearestKey, reachedBy, wrapped, type Trail } from './trail.ts';
import {
  asContent,
  pathText,
  verified,
  withoutValue,
  withValue,
  type Path,
  type Spliced,
} from './verify.ts';

export type { Path, Spliced } from './verify.ts';

/** A value to be written, and what is known of the fields. */
export interface NewValue {
  readonly value: Raw;
  readonly isNumberKey: IsNumberKey;
}

/**
 * Puts a record at the end of a file, after everything that stands there; in a file that is one
 * `{ }`, on one line inside it. The file's line ends and margin are kept. Refused where the id is
 * taken, without regard to capitals, or the file is no mapping of records.
 * @param recordText the record alone, as `emitRecord` writes it
 */
export function appendRecord(text: string, id: string, recordText: string): Spliced {
  const file = layoutOf(text);
  const record = layoutOf(recordText);
  if ('refused' in file) return file;
  if ('refused' in record) return record;
  const { content } = file;
  const value = record.content instanceof Map ? record.content.get(id) : undefined;
  if (value === undefined) return { refused: `the new record is not written under ${id}` };
  if (!(content instanceof Map)) return { refused: 'the file is not a mapping of records' };
  const taken = [...content.keys()].find((key) => key.toLowerCase() === id.toLowerCase());
  if (taken !== undefined) return { refused: `the file has a record ${taken} already` };
  const after = applyEdits(text, appendEdits(file, id, record));
  return verified(after, withValue(content, [id], value));
}

/**
 * Changes one value, or adds it: a field that is missing comes at the end of what holds it, an index
 * that is the list's length adds an item, and missing mappings and lists in between are made.
 * A changed scalar keeps its quotes, and text of several lines stays on one line in double quotes
 * unless a block scalar stood there. Refused where the record is not in the file, an item would
 * leave a hole in its list, or the path leads through a single value.
 * @param path from the file's root: `['s260308kt', 'lines', 0, 'price']`
 */
export function setField(text: string, path: Path, { value, isNumberKey }: NewValue): Spliced {
  const file = layoutOf(text);
  if ('refused' in file) return file;
  const trail = follow(file.root, path);
  const reached = reachedBy(trail, path);
  if (typeof reached !== 'number') return reached;
  const written = {
    key: nearestKey(path.slice(0, reached)),
    value: wrapped(path.slice(reached), value),
    isNumberKey,
  };
  const put = { written, step: stepOf(file) };
  const edits =
    trail.entries.length === reached
      ? replaceEdits(text, trail, put)
      : addEdits(text, trail, { ...put, name: keyOf(path[reached - 1]) });
  return verified(applyEdits(text, edits), withValue(file.content, path, asContent(value)));
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
  return verified(applyEdits(text, edits), withoutValue(file.content, path));
}

/**
 * Removes a record with the comments that belong to it: the comment lines directly above it at its
 * own margin, except those that begin on the file's first line, which are about the file, and the
 * comment lines below it that stand further in than the margin. Of blank lines on both sides, those
 * below go too, so that the rest stays evenly spaced.
 */
export function removeRecord(text: string, id: string): Spliced {
  const file = layoutOf(text);
  if ('refused' in file) return file;
  const { groups, entries } = follow(file.root, [id]);
  const [group, entry] = [groups[0], entries[0]];
  if (!group || !entry) return { refused: `there is no record ${id} in the file` };
  const edits = removeEdits(file, group, group.entries.indexOf(entry));
  return verified(applyEdits(text, edits), withoutValue(file.content, [id]));
}

function replaceEdits(text: string, { groups, entries }: Trail, put: Put): Edit[] {
  const entry = entries.at(-1);
  if (!entry) return [];
  if (groups.some((group) => group.flow)) return [replaceInFlow(entry, put.written)];
  return replaceInBlock(text, entry, put);
}

function addEdits(
  text: string,
  { groups }: Trail,
  put: Put & { name: string | undefined },
): Edit[] {
  const group = groups.at(-1);
  if (!group) return [];
  if (!group.flow) return addToBlock(text, group, put);
  const head = put.name === undefined ? '' : `${keyHead(put.name, true)} `;
  return addToFlow(text, group, head + flowText(put.written));
}

function removalEdits(file: Layout, { groups, entries }: Trail, path: Path): Edit[] {
  const [group, entry] = [groups.at(-1), entries.at(-1)];
  if (!group || !entry) return [];
  const index = group.entries.indexOf(entry);
  if (group.flow) return removeFromFlow(file.text, group, index);
  const holder = entries.at(-2);
  if (group.entries.length > 1 || !holder) return removeFromBlock(file.text, group, index);
  const value = group.type === 'list' ? [] : {};
  const written = { key: nearestKey(path), value, isNumberKey: () => false };
  return replaceInBlock(file.text, holder, { written, step: stepOf(file) });
}

// The spaces of one level, as the file's first nested mapping has them.
function stepOf({ text, root }: Layout): number {
  if (root?.type !== 'map') return 2;
  const inner = root.entries.map(({ value }) => value).find((value) => isBlockMap(value));
  const step = inner ? columnOf(text, inner.start) - columnOf(text, root.start) : 0;
  return step > 0 ? step : 2;
}

function isBlockMap(part: Part): boolean {
  return part.type === 'map' && !part.flow;
}
