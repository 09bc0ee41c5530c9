/** What the catalogue says of the reports on where ware comes from, and what it was tested for. */
import { TEST_KINDS, TRACE_PARTS, VERDICTS } from '../groups.ts';
import { CAUSES } from '../events.ts';
import { OF_ANY_TIME, SPAN } from './options.ts';
import type { CommandSpec } from './spec.ts';

/** From a pot's bag to the claims on its label. */
export const TRACING_COMMANDS = [
  {
    name: 'trace',
    argument: {
      form: '[what]',
      about: 'an id, the number on a bag, or the mark on a foot',
      offers: [
        'pieces',
        'mixed',
        'bought',
        'firings',
        'recipes',
        'sales',
        'consigned',
        'tests',
        'materials',
        'products',
        'reclaimed',
      ],
    },
    about: 'say what is in a pot, what a bag, mix or firing went into, and who has it',
    examples: [
      'saggar trace CB3711',
      'saggar trace p260113cu',
      'saggar trace linen --version-of 2025-10-06 --only sold',
      'saggar trace CB3711 --only sold --as csv',
      'saggar trace --fault crawled',
    ],
    options: [
      {
        flags: '--only <part>',
        about: 'one part of it alone',
        choices: TRACE_PARTS,
      },
      { flags: '--version-of <day>', about: 'of a recipe, the version that was in force that day' },
      {
        flags: '--fault <cause>',
        about: 'which loads had a fault, by mix, bag, clay lot, firing, shelf and maker',
        choices: CAUSES,
      },
      { flags: '--full', about: 'every record in a line of its own, however many' },
      ...OF_ANY_TIME,
    ],
  },
  {
    name: 'tests',
    argument: { form: '[recipe]', about: 'the tests of one recipe', offers: ['recipes'] },
    about: 'say what was tried and what came of it, the newest first; a page has the photos',
    examples: [
      'saggar tests',
      'saggar tests river-blue',
      'saggar tests linen --year 2025 --as html',
    ],
    options: [
      { flags: '--class <id>', about: 'tests of a class', offers: ['classes'] },
      { flags: '--kind <kind>', about: 'tests of a kind', choices: TEST_KINDS },
      { flags: '--verdict <word>', about: 'tests with a verdict', choices: VERDICTS },
      ...OF_ANY_TIME,
      ...SPAN,
    ],
  },
  {
    name: 'clays',
    about: 'say how each clay shrinks and what water it takes up, and how large to throw',
    examples: ['saggar clays', 'saggar clays --as html'],
    options: [...OF_ANY_TIME],
  },
  {
    name: 'claims',
    argument: { form: '[product]', about: 'the claims of one product', offers: ['products'] },
    about: 'say what each claim of your ware rests on: food, oven, microwave, dishwasher',
    examples: ['saggar claims', 'saggar claims mug', 'saggar claims --as html'],
    options: [...OF_ANY_TIME],
  },
] as const satisfies readonly CommandSpec[];
