/** Where two versions of the same content differ, value by value, and how to say it. */

import { isList, type Path, type Raw, type RawMap } from '../raw.ts';

/** A value that is not the same in both versions; absent where a version has none. */
export interface Difference {
  /** Keys and list indexes below what was compared. */
  readonly path: Path;
  readonly ours: Raw | undefined;
  readonly theirs: Raw | undefined;
}

/** The values in which two versions differ, in the order of the first. */
export function differencesOf(ours: Raw | undefined, theirs: Raw | undefined): Difference[] {
  if (ours === undefined || theirs === undefined || !areAlike(ours, theirs))
    return ours === theirs ? [] : [{ path: [], ours, theirs }];
  const steps = new Set([...innerSteps(ours), ...innerSteps(theirs)]);
  return [...steps].flatMap((step) =>
    differencesOf(partOf(ours, step), partOf(theirs, step)).map((inner) => ({
      ...inner,
      path: [step, ...inner.path],
    })),
  );
}

/** Whether there is anything in common to go into: both are mappings, or both lists. */
function areAlike(a: Raw, b: Raw): boolean {
  if (typeof a === 'string' || typeof b === 'string') return false;
  return isList(a) === isList(b);
}

/** The keys of a mapping, the indexes of a list. */
export function innerSteps(raw: Raw): readonly (string | number)[] {
  if (typeof raw === 'string') return [];
  return isList(raw) ? [...raw.keys()] : Object.keys(raw);
}

function partOf(raw: Raw, step: string | number): Raw | undefined {
  return (raw as RawMap)[step];
}

const LONGEST = 60;

/** A value on one line, cut where it is long: `38.00`, `[{product: mug, count: 2}]`. */
export function valueWords(raw: Raw): string {
  const words = flowWords(raw).replaceAll(/\s+/g, ' ').trim();
  return words.length > LONGEST ? `${words.slice(0, LONGEST - 1)}…` : words;
}

function flowWords(raw: Raw): string {
  if (typeof raw === 'string') return raw;
  if (isList(raw)) return `[${raw.map(flowWords).join(', ')}]`;
  const pairs = Object.entries(raw).map(([key, value]) => `${key}: ${flowWords(value)}`);
  return `{${pairs.join(', ')}}`;
}
