/** Follows a path of keys and indexes through a file's parts, as far as it leads. */

import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import { innerSteps } from '../read/yaml/differences.ts';
import { isList, valueAt, withValue, type Path, type Raw, type RawMap } from '../read/raw.ts';
import { scan } from '../read/yaml/scan.ts';
import { applyEdits, type Edit } from './lines.ts';
import {
  layoutOf,
  type EntryPart,
  type GroupPart,
  type Layout,
  type Refused,
  type TextPart,
} from './parts.ts';

/** What was passed on the way along a path. */
export interface Trail {
  /** The fields and items found, one for each step; fewer than the path has where it leads nowhere. */
  readonly entries: readonly EntryPart[];
  /** The mappings and lists looked into; one more than entries where the last lacks the next step. */
  readonly groups: readonly GroupPart[];
}

/** Follows the path from a part on; keys lead into mappings and indexes into lists only. */
export function follow(root: TextPart | undefined, path: Path): Trail {
  const entries: EntryPart[] = [];
  const groups: GroupPart[] = [];
  let part = root;
  for (const step of path) {
    if (part?.type !== (typeof step === 'number' ? 'list' : 'map')) break;
    groups.push(part);
    const entry = entryAt(part, step);
    if (!entry) break;
    entries.push(entry);
    part = entry.value;
  }
  return { entries, groups };
}

function entryAt(group: GroupPart, step: string | number): EntryPart | undefined {
  if (typeof step === 'number') return group.entries[step];
  return group.entries.find((entry) => entry.key?.text === step);
}

/**
 * How many steps of the path name what is to be written: all of them where they are there; up to the
 * first field or item that is missing; or up to an empty value, which is to be filled. Refused where
 * a new value would have no record to stand in, leave a hole in a list, or need another's place.
 */
export function reachedBy({ entries, groups }: Trail, path: Path): number | Refused {
  const found = entries.length;
  const last = entries.at(-1);
  if (last?.key && last.mark === undefined && !groups.at(-1)?.flow)
    return { refused: `${pathText(path)} is after a ? without a colon` };
  if (found === path.length) return found;
  if (!last && path.length > 1)
    return { refused: `there is no record ${pathText(path.slice(0, 1))} in the file` };
  const group = groups[found];
  const reached = group ? found + 1 : found;
  const hole = group?.type === 'list' && path[found] !== group.entries.length;
  if (hole || path.slice(reached).some((step) => typeof step === 'number' && step > 0))
    return { refused: `the list has no place for ${pathText(path)}` };
  const value = last?.value;
  if (group || (value?.type === 'scalar' && value.style === 'empty')) return reached;
  return {
    refused: `${pathText(path.slice(0, found))} holds no ${pathText(path.slice(found, found + 1))} and has another value`,
  };
}

/** The value inside new mappings and lists, so that the rest of a path leads to it. */
export function wrapped(rest: Path, value: Raw): Raw {
  return rest.reduceRight<Raw>(
    (inner, step) => (typeof step === 'number' ? [inner] : { [step]: inner }),
    value,
  );
}

/** The key at or above what the path names: it says what the field holds. */
export function nearestKey(path: Path): string {
  return path.findLast((step) => typeof step === 'string') ?? '';
}

/** The step as a key; undefined for an index. */
export function keyOf(step: string | number | undefined): string | undefined {
  return typeof step === 'string' ? step : undefined;
}

/** A changed text, or why it was not changed, in one sentence without a full stop. */
export type Spliced = { readonly text: string } | Refused;

/** The file with the edits made, where it then reads as `expected`. */
export function spliced(file: Layout, edits: readonly Edit[], expected: Raw): Spliced {
  return verified(file.mark + applyEdits(file.text, edits), expected);
}

/**
 * The changed text, where it reads as `expected` down to the order of its fields; else refused, with
 * the first place that would read otherwise.
 */
export function verified(changed: string, expected: Raw): Spliced {
  const plain = plainIn(changed);
  const layout = plain ? { content: plain } : layoutOf(changed);
  if ('refused' in layout) return { refused: `the change would spoil the file: ${layout.refused}` };
  const path = firstDifference(expected, layout.content);
  if (path === undefined) return { text: changed };
  const where = path.length === 0 ? 'the file' : pathText(path);
  return { refused: `the change would make ${where} read otherwise than meant` };
}

/** What a text holds, where the fast reader vouches for it. */
export function plainIn(text: string): RawMap | undefined {
  return scan(text, { numberKeys: NUMBER_KEYS })?.root;
}

/** A path as words: `s260308kt lines 1 price`, list items counted from 1. */
export function pathText(path: Path): string {
  return path.map((step) => (typeof step === 'number' ? String(step + 1) : step)).join(' ');
}

/** The content with an item put into a list before the one at the path. */
export function withItem(content: Raw, path: Path, item: Raw): Raw {
  const list = valueAt(content, path.slice(0, -1));
  const index = path.at(-1);
  if (!isList(list) || typeof index !== 'number') return content;
  return withValue(content, path.slice(0, -1), list.toSpliced(index, 0, item));
}

// Compares in order, so that a field that changed places is a difference too.
function firstDifference(expected: Raw | undefined, found: Raw | undefined): Path | undefined {
  if (typeof expected !== 'object' || typeof found !== 'object')
    return expected === found ? undefined : [];
  if (isList(expected) !== isList(found)) return [];
  const [left, right] = [innerSteps(expected), innerSteps(found)];
  for (let at = 0; at < Math.max(left.length, right.length); at++) {
    const step = left[at] ?? right[at] ?? '';
    const isSame = left[at] === right[at];
    const inner = isSame ? firstDifference(valueAt(expected, [step]), valueAt(found, [step])) : [];
    if (inner) return [step, ...inner];
  }
  return undefined;
}
