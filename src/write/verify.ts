/** Re-reads a changed file and lets it pass only where it says exactly what it should. */
import type { Raw } from '../read/raw.ts';
import { isList } from './emit.ts';
import { applyEdits, type Edit } from './lines.ts';
import { layoutOf, type Content, type Layout, type Refused } from './parts.ts';

/** Keys and list indexes from the file's root: `['s260308kt', 'lines', 0, 'price']`. */
export type Path = readonly (string | number)[];

/** A changed text, or why it was not changed, in one sentence without a full stop. */
export type Spliced = { readonly text: string } | Refused;

/** The file with the edits made, where it then reads as `expected`. */
export function spliced(file: Layout, edits: readonly Edit[], expected: Content): Spliced {
  return verified(file.mark + applyEdits(file.text, edits), expected);
}

/**
 * The changed text, where it reads as `expected` down to the order of its fields; else refused, with
 * the first place that would read otherwise.
 */
export function verified(changed: string, expected: Content): Spliced {
  const layout = layoutOf(changed);
  if ('refused' in layout) return { refused: `the change would spoil the file: ${layout.refused}` };
  const path = firstDifference(expected, layout.content);
  if (path === undefined) return { text: changed };
  const where = path.length === 0 ? 'the file' : pathText(path);
  return { refused: `the change would make ${where} read otherwise than meant` };
}

/** A path as words: `s260308kt lines 1 price`, list items counted from 1. */
export function pathText(path: Path): string {
  return path.map((step) => (typeof step === 'number' ? String(step + 1) : step)).join(' ');
}

/** Plain data as content: what a reader of the file should find. */
export function asContent(value: Raw): Content {
  if (typeof value === 'string') return value;
  if (isList(value)) return value.map(asContent);
  return new Map(Object.entries(value).map(([key, inner]) => [key, asContent(inner)]));
}

/**
 * The content with one value changed or added: a key that is missing comes last, an index that is
 * the list's length is a new item. Anything else on the path must be there.
 */
export function withValue(content: Content, path: Path, value: Content): Content {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  if (typeof step === 'number') {
    const list = Array.isArray(content) ? [...content] : [];
    list[step] = withValue(list[step] ?? '', rest, value);
    return list;
  }
  const map = new Map(content instanceof Map ? content : []);
  return map.set(step, withValue(map.get(step) ?? '', rest, value));
}

/** The content with an item put into a list before the one at the path. */
export function withItem(content: Content, path: Path, item: Content): Content {
  const list = valueAt(content, path.slice(0, -1));
  const index = path.at(-1);
  if (!Array.isArray(list) || typeof index !== 'number') return content;
  return withValue(content, path.slice(0, -1), list.toSpliced(index, 0, item));
}

/** The content without the field or list item at the path; what held it stays, if need be empty. */
export function withoutValue(content: Content, path: Path): Content {
  const [step, ...rest] = path;
  if (step === undefined) return content;
  if (rest.length > 0) {
    const inner = valueAt(content, [step]);
    return inner === undefined ? content : withValue(content, [step], withoutValue(inner, rest));
  }
  if (content instanceof Map) return new Map([...content].filter(([key]) => key !== step));
  return Array.isArray(content) ? content.filter((_, index) => index !== step) : content;
}

/** What stands at the path; undefined where nothing does. */
export function valueAt(content: Content, path: Path): Content | undefined {
  let found: Content | undefined = content;
  for (const step of path) {
    if (found instanceof Map && typeof step === 'string') found = found.get(step);
    else found = Array.isArray(found) && typeof step === 'number' ? found[step] : undefined;
  }
  return found;
}

// Compares in order, so that a field that changed places is a difference too.
function firstDifference(expected: Content, found: Content): Path | undefined {
  if (typeof expected === 'string' || typeof found === 'string')
    return expected === found ? undefined : [];
  const left = entriesOf(expected);
  const right = entriesOf(found);
  if (Array.isArray(expected) !== Array.isArray(found)) return [];
  for (let index = 0; index < Math.max(left.length, right.length); index++) {
    const path = entryDifference(left[index], right[index]);
    if (path) return path;
  }
  return undefined;
}

type ContentEntry = readonly [string | number, Content];

function entryDifference(left?: ContentEntry, right?: ContentEntry): Path | undefined {
  if (left?.[0] !== right?.[0]) return [left?.[0] ?? right?.[0] ?? ''];
  const inner = firstDifference(left?.[1] ?? '', right?.[1] ?? '');
  return inner && [left?.[0] ?? '', ...inner];
}

function entriesOf(content: Content[] | Map<string, Content>): ContentEntry[] {
  return [...content.entries()];
}
