/**
 * Gives every property test the same random cases in each run, so that the same code always passes or
 * always fails. `SEED=any npm run unit` takes others, and names the seed of a failure.
 */
import fc from 'fast-check';

const asked = process.env['SEED'] ?? '20260308';

if (asked !== 'any') fc.configureGlobal({ seed: Number(asked) });
