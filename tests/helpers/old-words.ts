/** What 0.1.0 said in other words: its answers are read in those of today, so that figures are what is compared. */
import type { Answer } from './old-answers.ts';

const WORDS: readonly (readonly [then: string, now: string])[] = [
  ['weighed out for a mix', 'weighed for a mix'],
  [
    'Making and refires stand apart and are not in',
    'Making and refires are listed separately, not in',
  ],
  ['Home costs may be reckoned by', 'Home costs may be worked out by'],
  [
    'An hour is what the price leaves for an hour of work, before that work is paid',
    'Per hour: what the price leaves for each hour of your work before you pay yourself',
  ],
  ['Margin and An hour are', 'Margin and Per hour are'],
  [
    'Loss uplift is what the lost pieces took, borne by the good ones; packing is at stock cost.',
    'Losses: cost of lost pieces, spread over the good ones; packing is at stock cost.',
  ],
  ['loss uplift', 'losses'],
  ['Not in it, so that nothing counts twice:', 'Left out of overhead, since counted elsewhere:'],
  [' of utilities, which is the energy of the firings', ' of utilities (energy of the firings)'],
  [' of kiln parts, which is in the wear', ' of kiln parts (counted as wear)'],
  [
    ' of wages, since hours are charged at the labour-rate',
    ' of wages (hours are charged at the labour-rate)',
  ],
  ['. Nor are costs of selling.', '. Costs of selling are left out too.'],
  ['Cost includes own work', 'Cost includes your own work'],
  ['which is no expense on a tax form', 'which is not an expense on a tax form'],
  [
    'Deposits and certificates are no income until',
    'Deposits and certificates are not income until',
  ],
  ['Where the material value is', 'Where the money in materials is'],
  ['standing before', 'opening stock'],
  [
    'energy, wear and labour are not in it. Both sides',
    'without energy, wear and labour. Both sides',
  ],
  ['Nothing stands anywhere yet.', 'No pieces yet.'],
  ['Of that, under self-employment tax', 'Net earnings from self-employment'],
  ['Self-employment tax: both', 'Self-employment tax (both)'],
  ['Half of it, which is taken off income', 'Half of it, deductible'],
  ['To have set aside by the day it is due', 'Set aside by the due date'],
  ['weekends and legal holidays are reckoned in.', 'weekends and legal holidays are allowed for.'],
  ['To look at before it goes out', 'Check before sending'],
  ['Sold in it, not paid in it', 'Sold this period, paid later'],
  ['Paid in it, sold outside it', 'Paid this period, sold in another'],
  ['Owed for pieces missing in it, less', 'Owed for pieces missing this period, less'],
  ['Bills dated in it, not paid in it', 'Bills of this period not yet paid'],
  ['Bills paid in it, dated outside it', 'Bills paid this period, dated in another'],
  ['In the profit, and not in that of this sheet', 'In the profit, but not on this sheet'],
  [
    'Driving: for information, no part of the profit',
    'Driving: for information, not part of the profit',
  ],
  [', no place of sales tax', ', no place for sales tax'],
  [': on no line of the sheet', ': not on any line of the sheet'],
  ['Sales tax collected: owed on, and no income', 'Sales tax collected (to pay over; not income)'],
  ['Less ware kept for oneself', 'Less ware for personal use'],
  [
    'Cost of goods sold: materials only, no pay for oneself',
    'Cost of goods sold: materials only, your own labour not included',
  ],
  ['Net profit: that less expenses', 'Net profit: gross profit less expenses'],
  ['put it down with saggar add fairs', 'record the fair with saggar add fairs'],
  [' of no fair on record', ' at no fair on record'],
  [
    'Purchases less what was taken for oneself',
    'Purchases less cost of items withdrawn for personal use',
  ],
];

const FORMS: readonly (readonly [then: RegExp, now: string])[] = [
  [/^No day of it: the book is (closed through \S+)$/, 'Books closed: not this period ($1)'],
  [/^All of it: the book is (closed through \S+)$/, 'Books closed: all of this period ($1)'],
  [/^Its days through (?=\S+$)/, 'Books closed: its days through '],
  [/A year's profit at that pace: times ([\d.]+)/, 'Annualised profit (× $1)'],
  [/ a mi: /, ' per mile: '],
  [/(?<=^Sold below cost: .*) a piece\.$/, ' per piece.'],
  [/; the cost has it in at ([\d.]+)\.$/, '; cost includes your work at $1 an hour.'],
  [
    /; the studio sets no labour-rate, so no work is in the cost\.$/,
    '; cost does not include your work, since studio.yaml has no labour-rate.',
  ],
  [
    /^Without a cost, for none of it was bought or mixed yet:/,
    'No cost known, since none was bought or mixed yet:',
  ],
  [/(?<=spread by minutes of work: [\d.]+) for an hour/, ' per hour'],
];

/** Notes of which people now read the like above the table; programs have the rows. */
const NOW_ABOVE = [
  /^\d+ materials? to order now: /,
  /^\d+ firings? out of line: |^No firing is out of line\.$/,
  / hours at the stall: \S+ an hour\.$/,
  /^Sold below cost: /,
];

/** An old answer, said as today. */
export function inTodaysWords(answer: Answer): Answer {
  const said = JSON.parse(JSON.stringify(answer), (_, value: unknown) =>
    typeof value === 'string' ? today(value) : value,
  ) as Answer;
  return {
    ...said,
    notes: said.notes.filter((note) => !NOW_ABOVE.some((form) => form.test(note))),
  };
}

function today(text: string): string {
  const plain = WORDS.reduce((said, [then, now]) => said.replaceAll(then, now), text);
  return FORMS.reduce((said, [then, now]) => said.replace(then, now), plain);
}
