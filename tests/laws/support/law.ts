/** How a law is put to the test: many random cases, and the seed of one that fails. */
import fc from 'fast-check';

/** How many times as many cases as usual: `LAW_RUNS=20 npx vitest run tests/laws` searches longer. */
const TIMES = Number(process.env['LAW_RUNS'] ?? 1);

/** The longest that one law may take where the machine is busy, in milliseconds. */
export const PATIENCE = 60_000 * TIMES;

/**
 * Holds a law against so many random cases. A failure names its seed and path, and the smallest case
 * that was found; the search for it, and a slow machine, are cut short before the test's time is up.
 */
export async function holds<T>(
  property: fc.IAsyncProperty<T> | fc.IProperty<T>,
  runs: number,
): Promise<void> {
  const interruptAfterTimeLimit = PATIENCE / 2;
  await fc.assert(property, { numRuns: runs * TIMES, interruptAfterTimeLimit });
}
