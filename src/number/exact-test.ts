/** Fisher's exact test on a table of two by two, and Holm's correction of several tests. */

/** How many of some had a fault, and how many had none. */
export interface FaultyOf {
  readonly faulty: number;
  readonly sound: number;
}

/** Tables as likely as what was seen count too: sums of logarithms are off by a last digit. */
const AS_LIKELY = 1 + 1e-7;

/**
 * Two-sided: the chance, if the fault had nothing to do with the groups, of a table that is no likelier
 * than what was seen (R. A. Fisher, Statistical Methods for Research Workers; as R's fisher.test).
 */
export function fisherExact(one: FaultyOf, other: FaultyOf): number {
  const of = one.faulty + one.sound;
  const faulty = one.faulty + other.faulty;
  const all = of + other.faulty + other.sound;
  const least = Math.max(0, of + faulty - all);
  const most = Math.min(of, faulty);
  const counts = Array.from({ length: most - least + 1 }, (_, at) => least + at);
  const logs = counts.map(
    (count) => logChoose(faulty, count) + logChoose(all - faulty, of - count) - logChoose(all, of),
  );
  const seen = Math.exp(logs[one.faulty - least] ?? 0) * AS_LIKELY;
  const chances = logs.map((log) => Math.exp(log));
  return Math.min(1, sumOfAll(chances.filter((chance) => chance <= seen)));
}

function sumOfAll(values: readonly number[]): number {
  return values.reduce((all, value) => all + value, 0);
}

/** ln of n over k, as a sum of logarithms. */
function logChoose(n: number, k: number): number {
  const from = Math.min(k, n - k);
  let log = 0;
  for (let at = 1; at <= from; at += 1) log += Math.log((n - from + at) / at);
  return log;
}

/**
 * The chances after Holm's correction, in the same order: the smallest times how many were tried, the
 * next times one fewer, never less than the one before (S. Holm, Scandinavian Journal of Statistics 6, 1979).
 */
export function holmCorrected(chances: readonly number[]): number[] {
  const order = [...chances.keys()].sort((a, b) => (chances[a] ?? 0) - (chances[b] ?? 0));
  const corrected = chances.map(() => 1);
  let least = 0;
  order.forEach((at, rank) => {
    least = Math.max(least, Math.min(1, (chances[at] ?? 1) * (chances.length - rank)));
    corrected[at] = least;
  });
  return corrected;
}
