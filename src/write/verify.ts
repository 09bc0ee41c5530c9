/** Re-reads a changed file and lets it pass only where it says exactly what it should. */
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import { isList, valueAt, withValue, type Path } from '../read/at-path.ts';
import { stepsOf } from '../read/differences.ts';
import type { Raw, RawMap } from '../read/raw.ts';
import { scan } from '../read/scan.ts';
import { applyEdits, type Edit } from './lines.ts';
import { layoutOf, type Layout, type Refused } from './parts.ts';

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
  const [left, right] = [stepsOf(expected), stepsOf(found)];
  for (let at = 0; at < Math.max(left.length, right.length); at++) {
    const step = left[at] ?? right[at] ?? '';
    const isSame = left[at] === right[at];
    const inner = isSame ? firstDifference(valueAt(expected, [step]), valueAt(found, [step])) : [];
    if (inner) return [step, ...inner];
  }
  return undefined;
}
