/** What the catalogue says of papers. */
import type { Kind } from '../book.ts';
import { AFRESH, AS_OF, DRY_RUN, STUDIO, as } from './options.ts';
import type { CommandSpec } from './spec.ts';

/** The papers that can be asked for, and the records that each is of. */
export const PAPER_OF = {
  invoice: 'sales',
  receipt: 'sales',
  credit: 'sales',
  order: 'orders',
  sent: 'consigned',
  owed: 'channels',
  labels: 'pieces',
  care: 'products',
} as const satisfies Record<string, Kind>;

export type PaperKind = keyof typeof PAPER_OF;

export const PAPER_KINDS = Object.keys(PAPER_OF) as readonly PaperKind[];

export function isPaperKind(word: string): word is PaperKind {
  return Object.hasOwn(PAPER_OF, word);
}

export const PAPER_COMMAND = {
  name: 'paper',
  argument: {
    form: '<kind>',
    about:
      'invoice, receipt, credit, order, sent (list for a gallery), owed (statement), labels or care',
    choices: PAPER_KINDS,
  },
  more: {
    form: '[of...]',
    about:
      'the sale, order, delivery, channel or product by its id; of labels also "12 mug oatmeal"',
    offers: 'papers',
  },
  about: 'make a paper that leaves the studio, to print or to mail',
  examples: [
    'saggar paper receipt s260628ce',
    'saggar paper invoice s260630db --as html > invoice.html',
    'saggar paper invoice s260630db --number --series A --dry-run',
    'saggar paper sent c260520fj --as html > list.html',
    'saggar paper owed hobbin-lane',
    'saggar paper labels "12 mug oatmeal" --label-sheet A4-3x8 --start 5 --as html > labels.html',
    'saggar paper care mug',
  ],
  options: [
    {
      flags: '--number',
      about: 'write the next number into the sale of an invoice or credit; prints nothing else',
    },
    {
      flags: '--series <series>',
      about:
        'the series of the number (of invoices in studio.yaml; named on any branch but its own)',
    },
    { flags: '--buyer <name>', about: 'with owed: whose account, where several buyers owe' },
    {
      flags: '--label-sheet <name>',
      about: 'with labels: the sheet, such as A4-3x8 or Letter-3x10, or your own in studio.yaml',
    },
    { flags: '--start <number>', about: 'with labels: the first label to print on (1)' },
    DRY_RUN,
    STUDIO,
    AS_OF,
    as(['text', 'html', 'json']),
    AFRESH,
  ],
} as const satisfies CommandSpec;
