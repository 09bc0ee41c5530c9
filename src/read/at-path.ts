/** Raw content by path: what stands there, and the whole with another value there. */
import { newMapping } from './mapping.ts';
import type { Raw, RawMap } from './raw.ts';

/** Keys and list indexes, from the outside in. */
export type Path = readonly (string | number)[];

/** Whether a value is a list. */
export function isList(value: Raw | undefined): value is readonly Raw[] {
  return Array.isArray(value);
}

/** Whether a value is a mapping. */
export function isMap(value: Raw | undefined): value is RawMap {
  return typeof value === 'object' && !Array.isArray(value);
}

/** A value that is a text, and an empty text for any other or none. */
export function textOf(value: Raw | undefined): string {
  return typeof value === 'string' ? value : '';
}

/** What stands at a path; undefined where nothing does. */
export function valueAt(whole: Raw | undefined, path: Path): Raw | undefined {
  return path.reduce<Raw | undefined>((inner, step) => {
    if (isList(inner)) return typeof step === 'number' ? inner[step] : undefined;
    return isMap(inner) && typeof step === 'string' ? inner[step] : undefined;
  }, whole);
}

/** The whole with a value at a path; mappings and lists on the way are made where there are none. */
export function withValue(whole: Raw | undefined, path: Path, value: Raw): Raw {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  if (typeof step === 'number') {
    const list = isList(whole) ? [...whole] : [];
    list[step] = withValue(list[step], rest, value);
    return list;
  }
  const inner = isMap(whole) ? whole[step] : undefined;
  return mapping([
    ...Object.entries(isMap(whole) ? whole : {}),
    [step, withValue(inner, rest, value)],
  ]);
}

/** The whole without what stands at a path; what held it stays. */
export function withoutValue(whole: Raw, path: Path): Raw {
  const holder = path.slice(0, -1);
  const last = path.at(-1);
  const held = valueAt(whole, holder);
  if (isList(held))
    return withValue(
      whole,
      holder,
      held.filter((_, index) => index !== last),
    );
  if (!isMap(held)) return whole;
  const rest = Object.entries(held).filter(([key]) => key !== last);
  return withValue(whole, holder, Object.fromEntries(rest));
}

/** A mapping of entries; the last of two with one key counts, in the first one's place. */
export function mapping(entries: Iterable<readonly [string, Raw]>): RawMap {
  const map = newMapping();
  for (const [key, value] of entries) map[key] = value;
  return map;
}
