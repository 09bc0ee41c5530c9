/** Figures of many files as few long lists, which are soon gone through, kept and read. */
import type { Figures } from './gather.ts';

/** The figures of some files, one after the other. */
export interface FigureColumns {
  /** Each key once. */
  readonly names: readonly string[];
  /** How many figures each file has. */
  readonly counts: Int32Array;
  /** Of each figure the place of its key among the names. */
  readonly keys: Int32Array;
  readonly sizes: Float64Array;
  readonly days: Int32Array;
}

/** The figures of files, one after the other. */
export function figureColumns(files: readonly Figures[]): FigureColumns {
  const places = new Map<string, number>();
  const placeOf = (key: string): number => {
    let place = places.get(key);
    if (place === undefined) places.set(key, (place = places.size));
    return place;
  };
  const counts = Int32Array.from(files, ({ keys }) => keys.length);
  const all = counts.reduce((sum, count) => sum + count, 0);
  const [keys, sizes, days] = [new Int32Array(all), new Float64Array(all), new Int32Array(all)];
  let from = 0;
  for (const file of files) {
    sizes.set(file.sizes, from);
    days.set(file.days, from);
    for (const key of file.keys) keys[from++] = placeOf(key);
  }
  return { counts, keys, sizes, days, names: [...places.keys()] };
}

/** The figures as they were, file by file. */
export function figuresByFile(columns: FigureColumns): readonly Figures[] {
  const { names, counts, keys, sizes, days } = columns;
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

/** Which file a figure is in, and its place there. */
export function figurePlace({ counts }: FigureColumns, at: number): [file: number, place: number] {
  let place = at;
  const file = counts.findIndex((count) => {
    if (place < count) return true;
    place -= count;
    return false;
  });
  return [file, place];
}
