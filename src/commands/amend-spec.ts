/** What `amend` takes, for its help, its completion and the man page. */
import { KINDS } from '../book.ts';
import { CHANGING } from './options.ts';
import type { CommandSpec } from './spec.ts';

/** The row of `amend` in the catalogue. */
export const AMEND: CommandSpec = {
  name: 'amend',
  argument: {
    form: '<id>',
    about: "the record's id; studio.yaml for the settings",
    offers: KINDS,
  },
  more: {
    form: '[changes...]',
    about: 'FIELD=VALUE; within a list counted from 0: lines.0.price=40; FIELD= takes it out',
    offers: 'fields',
  },
  about: 'change values of a record',
  examples: [
    'saggar amend s260630db paid=2026-07-01 --dry-run',
    'saggar amend s260630db lines.0.price=36 "lines.5=1 mug oatmeal at 40" --dry-run',
    'saggar amend gallery commission=50% --from 2026-08-01 --dry-run',
    'saggar amend studio.yaml labour-rate=27 --from 2026-07-01 --dry-run',
  ],
  options: [
    {
      flags: '--from <day>',
      about:
        'the first day on which it is so, for products, channels, classes and labour-rate; figures before it stay',
    },
    {
      flags: '--even-if-closed',
      about: 'though the definition changes figures of a closed period',
    },
    ...CHANGING,
  ],
  load: async () => (await import('./amend.ts')).amend,
};
