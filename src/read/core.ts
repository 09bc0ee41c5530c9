/** A file as a YAML 1.2 core reader sees it: what other readers and editors would make of it. */
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
  readonly plain: (path: readonly (string | number)[]) => boolean | undefined;
  /** The text of the scalar at a path as it stands in the file, without quotes; empty for none. */
  readonly text: (path: readonly (string | number)[]) => string;
}

/** A core reader's view of content that was read with marks before its scalars. */
export function coreFile(marked: RawMap): CoreFile {
  const scalarAt = (path: readonly (string | number)[]): string | undefined => {
    const found = path.reduce<Raw | undefined>(partOf, marked);
    return typeof found === 'string' ? found : undefined;
  };
  return {
    root: valueOf(marked),
    plain: (path) => scalarAt(path)?.startsWith(UNQUOTED),
    text: (path) => scalarAt(path)?.slice(UNQUOTED.length) ?? '',
  };
}

function partOf(whole: Raw | undefined, step: string | number): Raw | undefined {
  if (whole === undefined || typeof whole === 'string') return undefined;
  if (isList(whole)) return typeof step === 'number' ? whole[step] : undefined;
  return whole[step];
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

function isList(raw: Raw): raw is readonly Raw[] {
  return Array.isArray(raw);
}
