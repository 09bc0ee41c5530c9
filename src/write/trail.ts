/** Follows a path of keys and indexes through a file's parts, as far as it leads. */
import type { Path } from '../read/at-path.ts';
import type { Raw } from '../read/raw.ts';
import type { EntryPart, GroupPart, Part, Refused } from './parts.ts';
import { pathText } from './verify.ts';

/** What was passed on the way along a path. */
export interface Trail {
  /** The fields and items found, one for each step; fewer than the path has where it leads nowhere. */
  readonly entries: readonly EntryPart[];
  /** The mappings and lists looked into; one more than entries where the last lacks the next step. */
  readonly groups: readonly GroupPart[];
}

/** Follows the path from a part on; keys lead into mappings and indexes into lists only. */
export function follow(root: Part | undefined, path: Path): Trail {
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
    return { refused: `${pathText(path)} stands behind a ? without a colon` };
  if (found === path.length) return found;
  if (!last && path.length > 1)
    return { refused: `there is no record ${pathText(path.slice(0, 1))} in the file` };
  const group = groups[found];
  const reached = group ? found + 1 : found;
  const hole = group?.type === 'list' && path[found] !== group.entries.length;
  if (hole || path.slice(reached).some((step) => typeof step === 'number' && step > 0))
    return { refused: `the list has no place for ${pathText(path)}` };
  if (group || isEmpty(last?.value)) return reached;
  return {
    refused: `${pathText(path.slice(0, found))} holds no ${pathText(path.slice(found, found + 1))} and has another value`,
  };
}

function isEmpty(part: Part | undefined): boolean {
  return part?.type === 'scalar' && part.style === 'empty';
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
