/** What is another from a day on in the definitions of a random studio; each has a source of its own. */
import { randomSource, type RandomSource } from '../random-source.js';
import type { TreeMap } from '../yaml-tree.ts';

/** A day within the first 120 of a book that begins on the first day. */
function dayFrom(random: RandomSource, first: string): string {
  const time = Date.parse(first) + random.int(0, 120) * 86_400_000;
  return new Date(time).toISOString().slice(0, 10);
}

interface Ground {
  readonly seed: number;
  /** Names the definition. */
  readonly of: string;
  readonly first: string;
}

/** A record with none, one or two changes, each made of what `make` gives. */
export function withChanges(
  { seed, of, first }: Ground,
  record: TreeMap,
  make: (random: RandomSource) => TreeMap,
): TreeMap {
  const random = randomSource(seed, 'changes', of);
  if (random.chance(0.5)) return record;
  const days = new Set([dayFrom(random, first), dayFrom(random, first)]);
  const changes = [...days].map((from) => ({ from, ...make(random) }));
  return { ...record, changes };
}
