/** A file as a YAML 1.2 core reader sees it: what other readers and editors would make of it. */
import { isList, valueAt, type Path } from './at-path.ts';
import { coreValue } from './core-value.ts';
import { UNQUOTED } from './leaf.ts';
import { newMapping } from './mapping.ts';
import type { Raw, RawMap } from './raw.ts';

/** One file of the studio, read with numbers, truths and nulls recognised. */
export interface CoreFile {
  /** The whole file as plain values. */
  readonly root: unknown;
  /**
   * Whether the scalar at a path (keys and list indexes from the root) stands there without quotes;
   * undefined where there is no scalar.
   */
  readonly plain: (path: Path) => boolean | undefined;
  /** The text of the scalar at a path as it stands in the file, without quotes; empty for none. */
  readonly text: (path: Path) => string;
}

/** A core reader's view of content that was read with marks before its scalars. */
export function coreFile(marked: RawMap): CoreFile {
  const scalarAt = (path: Path): string | undefined => {
    const found = valueAt(marked, path);
    return typeof found === 'string' ? found : undefined;
  };
  return {
    root: valueOf(marked),
    plain: (path) => scalarAt(path)?.startsWith(UNQUOTED),
    text: (path) => scalarAt(path)?.slice(UNQUOTED.length) ?? '',
  };
}

function valueOf(marked: Raw): unknown {
  if (typeof marked === 'string') return scalarValue(marked);
  if (isList(marked)) return marked.map(valueOf);
  const map = newMapping<unknown>();
  for (const [key, value] of Object.entries(marked)) map[key] = valueOf(value);
  return map;
}

function scalarValue(marked: string): unknown {
  const text = marked.slice(UNQUOTED.length);
  return marked.startsWith(UNQUOTED) ? coreValue(text) : text;
}
