/** Parts of a memory that are kept as they must be, with the right digest, but have the wrong form. */
import { Buffer } from 'node:buffer';
import { deserialize, serialize } from 'node:v8';
import fc from 'fast-check';
import { keepBoxes, openBoxes } from '../../src/memory/boxes.ts';
import type { StudioStore } from '../../src/memory/store.ts';

/** One value of one part made another. */
export interface Forgery {
  /** Picks the part. */
  readonly which: number;
  /** Picks a value in it. */
  readonly where: number;
  readonly how: 'gone' | 'of another type' | 'a cycle' | 'too many';
}

/** Forgeries by chance. */
export const forgeries: fc.Arbitrary<Forgery> = fc.record({
  which: fc.nat(1_000_000),
  where: fc.nat(1_000_000),
  how: fc.constantFrom('gone', 'of another type', 'a cycle', 'too many'),
});

/**
 * Forges one part of what a store keeps; all that is kept of it, and of the others, has its right digest.
 * @returns the name of the part
 */
export function forge(store: StudioStore, { which, where, how }: Forgery): string {
  const found = openBoxes(store);
  const parts = [...found.places].flatMap(([box, place]) =>
    [...place.parts.keys()].map((name) => ({ box, name })),
  );
  const picked = parts[which % (parts.length + 1)];
  const forged = (value: unknown): unknown => forgedIn(value, { where, how });
  const about = picked ? found.about : forged(found.about);
  const boxes = new Map(
    [...found.places].map(([box, place]) => {
      if (box !== picked?.box) return [box, undefined];
      const own = [...place.parts.keys()].map((name): [string, Uint8Array] => {
        const bytes = found.part(box, name);
        return [name, name === picked.name ? forgedBytes(bytes, forged) : bytes];
      });
      return [box, new Map(own)];
    }),
  );
  keepBoxes(store, { about, boxes, found });
  return picked?.name ?? 'list';
}

/** Records are packed as a table and numbers that point into it; all else is a value. */
function forgedBytes(bytes: Uint8Array, forged: (value: unknown) => unknown): Uint8Array {
  const value = valueIn(bytes);
  if (value !== undefined) return serialize(forged(value.of));
  const [length = 0] = new Uint32Array(bytes.slice(0, 4).buffer);
  const table: unknown = JSON.parse(Buffer.from(bytes.slice(4, 4 + length)).toString('latin1'));
  const numbers = new Uint32Array(bytes.slice(4 + length).buffer);
  const made = Object(forged({ table, numbers })) as { table?: unknown; numbers?: unknown };
  const json = cut(made.table) ?? '';
  const text = json.padEnd(Math.ceil(json.length / 4) * 4);
  const after = made.numbers instanceof Uint32Array ? made.numbers : new Uint32Array();
  return Buffer.concat([
    new Uint8Array(Uint32Array.of(text.length).buffer),
    Buffer.from(text, 'latin1'),
    new Uint8Array(after.buffer, after.byteOffset, after.byteLength),
  ]);
}

/** JSON has no cycles; such a table ends in the middle. */
function cut(table: unknown): string | undefined {
  try {
    return JSON.stringify(table);
  } catch {
    return '{"files":[';
  }
}

function valueIn(bytes: Uint8Array): { readonly of: unknown } | undefined {
  try {
    return { of: deserialize(bytes) };
  } catch {
    return undefined;
  }
}

/** A place of a value in another one. */
interface Place {
  readonly old: unknown;
  readonly put: (value: unknown) => void;
  readonly take: () => void;
}

function forgedIn(whole: unknown, { where, how }: Omit<Forgery, 'which'>): unknown {
  const root = { whole };
  const places = [...placesIn(root)].filter(({ old }) => how !== 'too many' || isMany(old));
  const place = places[where % Math.max(1, places.length)];
  if (!place) return 'odd';
  if (how === 'gone') place.take();
  if (how === 'of another type') place.put(OTHERS.find((each) => typeof each !== typeof place.old));
  if (how === 'a cycle') place.put(root.whole);
  if (how === 'too many') place.put(tooMany(place.old));
  return root.whole;
}

const OTHERS = ['odd', 77];

function isMany(value: unknown): boolean {
  return Array.isArray(value) || ArrayBuffer.isView(value);
}

function tooMany(value: unknown): unknown {
  if (value instanceof Uint32Array)
    return value.map((each, at) => (at % 3 === 0 ? 2 ** 32 - 1 : each));
  return Array.isArray(value)
    ? [...(value as unknown[]), ...(value as unknown[]), undefined]
    : value;
}

function* placesIn(value: object): Generator<Place> {
  for (const place of ownPlaces(value)) {
    yield place;
    if (typeof place.old === 'object' && place.old !== null) yield* placesIn(place.old);
  }
}

function ownPlaces(value: object): Place[] {
  if (ArrayBuffer.isView(value) || value instanceof Set) return [];
  if (value instanceof Map)
    return [...(value as Map<unknown, unknown>)].map(([key, old]) => ({
      old,
      put: (other) => void value.set(key, other),
      take: () => void value.delete(key),
    }));
  const own = value as Record<string, unknown>;
  return Object.keys(own).map((key) => ({
    old: own[key],
    put: (other) => {
      own[key] = other;
    },
    take: () => {
      // eslint-disable-next-line @typescript-eslint/no-dynamic-delete -- a field that is missing is what is wanted
      delete own[key];
    },
  }));
}
