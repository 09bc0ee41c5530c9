/** What the catalogue says of `saggar review`. */
import { AFRESH, AS, AS_OF, STUDIO } from './options.ts';
import type { CommandSpec } from './spec.ts';

/** What a branch of the book means. */
export const REVIEW: CommandSpec = {
  name: 'review',
  argument: { form: '<base>', about: 'the branch that this one is to be merged into, or A..B' },
  more: { form: '[head]', about: 'the branch to be merged (the working tree)' },
  about: 'say what a branch changes in the book, for a pull request',
  examples: [
    'saggar review main',
    'saggar review main HEAD --as markdown',
    'saggar review main --without names,prices',
  ],
  options: [
    { flags: '--strict', about: 'count new warnings as errors' },
    { flags: '--without <what>', about: 'keep names, prices or names,prices to yourself' },
    STUDIO,
    AS_OF,
    AFRESH,
    { ...AS, choices: ['text', 'json', 'markdown'] },
  ],
  load: async () => (await import('./review.ts')).review,
};
