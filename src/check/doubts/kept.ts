/** Figures of many files as few long lists, which are soon kept and read. */
import type { Figures } from './gather.ts';

/** The figures of some files, one after the other. */
export interface KeptFigures {
  /** Each key once. */
  readonly names: readonly string[];
  /** How many figures each file has. */
  readonly counts: Int32Array;
  /** Of each figure the place of its key among the names. */
  readonly keys: Int32Array;
  readonly sizes: Float64Array;
  readonly days: Int32Array;
}

/** Figures to be kept, file by file. */
export function keptFigures(files: readonly Figures[]): KeptFigures {
  const places = new Map<string, number>();
  const placeOf = (key: string): number => {
    const known = places.get(key) ?? places.size;
    places.set(key, known);
    return known;
  };
  return {
    counts: Int32Array.from(files, ({ keys }) => keys.length),
    keys: Int32Array.from(files.flatMap(({ keys }) => keys.map(placeOf))),
    sizes: Float64Array.from(files.flatMap(({ sizes }) => sizes)),
    days: Int32Array.from(files.flatMap(({ days }) => days)),
    names: [...places.keys()],
  };
}

/** The figures as they were, file by file. */
export function figuresKept({ names, counts, keys, sizes, days }: KeptFigures): readonly Figures[] {
  let from = 0;
  return Array.from(counts, (count) => {
    const to = from + count;
    const figures = {
      keys: Array.from(keys.subarray(from, to), (key) => names[key] ?? ''),
      sizes: [...sizes.subarray(from, to)],
      days: [...days.subarray(from, to)],
    };
    from = to;
    return figures;
  });
}
