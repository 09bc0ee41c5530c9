/** What the catalogue says of `saggar check`. */
import { AFRESH, AS_OF, AT, PROBLEMS_AS, STUDIO } from './options.ts';
import type { CommandSpec } from './spec.ts';

/** All problems. */
export const CHECK: CommandSpec = {
  name: 'check',
  about: 'say what is wrong in the book, where, and how to mend it',
  examples: [
    'saggar check',
    'saggar check --strict',
    'saggar check --at HEAD',
    'saggar check --rules',
    'saggar check --as sarif > problems.sarif',
  ],
  options: [
    { flags: '--strict', about: 'count warnings as errors' },
    { flags: '--rules', about: 'list the rules instead, with what each finds wrong' },
    STUDIO,
    AS_OF,
    PROBLEMS_AS,
    AT,
    AFRESH,
  ],
  load: async () => (await import('./check.ts')).check,
};
