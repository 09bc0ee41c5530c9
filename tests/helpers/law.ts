/** How a law is put to the test: many random cases, and the seed of one that fails. */
import fc from 'fast-check';
import { getCurrentTest } from 'vitest/suite';
import { cases } from './tier.ts';

/** What a law ran, as the summary of `npm run long` shows it. */
export interface LawRun {
  readonly cases: number;
  readonly seed: number;
}

declare module 'vitest' {
  interface TaskMeta {
    laws?: LawRun[];
  }
}

/** How a law is run, where it isn't as usual. */
export interface Way {
  /** Cases in the long tier; ten times as many as in the short one where it isn't said. */
  readonly long?: number;
  /** Don't look for a smaller case, where each takes long or leaves something on the disk. */
  readonly endOnFailure?: boolean;
}

/**
 * Holds a law against so many random cases, whatever time they take. A failure names its seed and
 * path, and the smallest case that was found. A law that ran fewer cases than it should fails.
 */
export function holds<T>(property: fc.IProperty<T>, short?: number, way?: Way): void;
export function holds<T>(property: fc.IAsyncProperty<T>, short?: number, way?: Way): Promise<void>;
export function holds<T>(
  property: fc.IAsyncProperty<T> | fc.IProperty<T>,
  short = 100,
  { long, endOnFailure = false }: Way = {},
): Promise<void> | void {
  const numRuns = cases(short, long);
  const run: unknown = fc.check(property as fc.IProperty<T>, { numRuns, endOnFailure });
  if (run instanceof Promise)
    return run.then((details: fc.RunDetails<T>) => {
      judged(details, numRuns);
    });
  judged(run as fc.RunDetails<T>, numRuns);
}

function judged<T>(details: fc.RunDetails<T>, wanted: number): void {
  if (details.failed)
    throw new Error(fc.defaultReportMessage(details), { cause: details.errorInstance });
  const { numRuns, seed } = details;
  if (numRuns < wanted)
    throw new Error(`the law ran ${String(numRuns)} of its ${String(wanted)} cases`);
  const meta = getCurrentTest()?.meta;
  if (meta) (meta.laws ??= []).push({ cases: numRuns, seed });
}
