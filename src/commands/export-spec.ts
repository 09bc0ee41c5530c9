/** What the catalogue says of `saggar export`. */
import { AFRESH, AS_OF, SPAN, STUDIO } from './options.ts';
import type { CommandSpec } from './spec.ts';

/** The command that hands the whole book over. */
export const EXPORT: CommandSpec = {
  name: 'export',
  argument: {
    form: '[folder]',
    about: 'a folder that is empty or that is to be made',
    offers: 'folders',
  },
  about: 'write the whole book and all reports as tables and pages, to hand over',
  examples: ['saggar export handover-2025 --year 2025', 'saggar export --archive handover.zip'],
  options: [
    { flags: '--archive <file>', about: 'a zip of all of it, with the files of the book' },
    STUDIO,
    AS_OF,
    AFRESH,
    ...SPAN,
  ],
  load: async () => (await import('./export.ts')).exportBook,
};
