/** An invented week as it is typed: each record's command, and what is seen and answered. */

/** One record. */
export interface WeekRecord {
  readonly what: string;
  readonly day: string;
  /** The words of the command; `ID` is the id of the record that is in `of`. */
  readonly words: readonly string[];
  /** The beginning of the id that the words name. */
  readonly of?: string;
  /** What is waited for, and what is typed before Enter. */
  readonly told: readonly (readonly [see: string, typed: string])[];
}

const TAB = '\t';
const DATE = ['date: usual: ', ''] as const;
const SAVE = ['Save, change or discard?', ''] as const;

/** Thirty lines of a fair: 22 mugs, 6 bowls, 2 vases, 2 mugs and 2 bowls as seconds. */
const FAIR_LINES = [
  ...Array.from({ length: 14 }, () => 'mug'),
  ...Array.from({ length: 4 }, () => '2 mug'),
  ...Array.from({ length: 6 }, () => 'bowl'),
  ...['vase', 'vase', 'mug second', 'mug second', 'bowl second', 'bowl second'],
];

const ON_MONDAY: readonly WeekRecord[] = [
  {
    what: 'a purchase on account',
    day: '2026-06-08',
    words: ['add', 'bought'],
    told: [
      DATE,
      ['supplier: usual: Pit lane', ''],
      ['Invoice: ', ''],
      ['Lines: ', `400 lb b${TAB}`],
      ['Lines (number 2)', '10 kg kaolin 16'],
      ['Lines (number 3)', ''],
      ['Freight: ', ''],
      ['paid: usual: no', ''],
      SAVE,
    ],
  },
  {
    what: 'a glaze mix',
    day: '2026-06-08',
    words: ['add', 'mixed'],
    told: [DATE, ['recipe: usual: sea-green', ''], ['base-weight: usual: 6 kg', ''], SAVE],
  },
  {
    what: 'a lot of mugs',
    day: '2026-06-08',
    words: ['add', 'pieces'],
    told: [DATE, ['product: usual: bowl', 'm'], ['Made: ', '24'], SAVE],
  },
  {
    what: 'a lot of bowls',
    day: '2026-06-08',
    words: ['add', 'pieces'],
    told: [DATE, ['product: usual: mug', 'b'], ['Made: ', '12'], SAVE],
  },
];

const AT_THE_KILN: readonly WeekRecord[] = [
  {
    what: 'a bisque firing',
    day: '2026-06-09',
    words: ['add', 'firings'],
    told: [
      DATE,
      ['Kind', 'b'],
      ['kiln: usual: front-kiln', ''],
      ['cone: usual: 04', ''],
      ['Load: ', TAB],
      ['Load (number 2)', TAB],
      ['Load (number 3)', ''],
      SAVE,
    ],
  },
  {
    what: 'what came out of it',
    day: '2026-06-10',
    words: ['unload'],
    told: [
      ['Did all 30 come out good?', ''],
      ['20 mug', '2 cracked'],
      ['10 bowl', '1 warped'],
      ['Energy:', '40 kWh'],
      SAVE,
    ],
  },
  {
    what: 'a glaze firing',
    day: '2026-06-11',
    words: ['add', 'firings'],
    told: [
      DATE,
      ['Kind', 'g'],
      ['kiln: usual: front-kiln', ''],
      ['cone: usual: 6', ''],
      ['Load: ', TAB],
      ['Load (number 2)', TAB],
      ['Load (number 3)', ''],
      SAVE,
    ],
  },
  {
    what: 'what came out of that, with seconds',
    day: '2026-06-12',
    words: ['unload'],
    told: [
      ['Did all 36 come out good?', ''],
      ['12 bowl p260526bo: lost', '1 stuck'],
      ['12 bowl p260526bo: seconds', '2 ran'],
      ['24 mug p260526mu: lost', ''],
      ['24 mug p260526mu: seconds', '1 ran'],
      ['Energy:', '60 kWh'],
      SAVE,
    ],
  },
];

const ON_THE_WAY: readonly WeekRecord[] = [
  {
    what: 'an order with a deposit',
    day: '2026-06-09',
    words: ['add', 'advances'],
    told: [
      DATE,
      ['for: usual: deposit', ''],
      ['Amount: ', '50'],
      ['Channel', 'd'],
      ['Buyer: ', 'Ina'],
      ['Order: ', 'tea set'],
      SAVE,
    ],
  },
  {
    what: 'an enrolment',
    day: '2026-06-10',
    words: ['add', 'sales'],
    told: [
      DATE,
      ['channel: usual: door', ''],
      ['Lines: ', `wh${TAB}`],
      ['Lines (number 2)', ''],
      ['Advances', ''],
      SAVE,
    ],
  },
  {
    what: "a gallery's statement",
    day: '2026-06-12',
    words: ['add', 'sales'],
    told: [
      DATE,
      ['channel: usual: door', 'g'],
      ['Statement: ', '2026-06'],
      ['Lines: ', '2 mug'],
      ['Lines (number 2)', 'vase'],
      ['Lines (number 3)', ''],
      ['paid: usual: no', ''],
      SAVE,
    ],
  },
];

const AT_THE_END: readonly WeekRecord[] = [
  {
    what: "yesterday's mistake corrected",
    day: '2026-06-13',
    words: ['amend', 'ID', 'lines.3=bowl'],
    of: 's260612',
    told: [],
  },
  {
    what: 'a fair day of 30 lines',
    day: '2026-06-13',
    words: ['add', 'sales'],
    told: [
      DATE,
      ['channel: usual: gallery', 'sq'],
      ['before the first sale', '50'],
      ...FAIR_LINES.map(
        (line, at) => [at === 0 ? 'Lines: ' : `Lines (number ${at + 1})`, line] as const,
      ),
      ['Lines (number 31)', ''],
      // 50.00 and 1170.00 taken, of which 700.00 by card.
      ['By card', '700'],
      ['Cash in the box now', '520'],
      ['Keep the count', ''],
      SAVE,
    ],
  },
  {
    what: 'a return',
    day: '2026-06-14',
    words: ['add', 'sales'],
    told: [
      DATE,
      ['channel: usual: square', 'd'],
      ['Lines: ', 'mug returned'],
      ['Lines (number 2)', ''],
      ['Advances', ''],
      SAVE,
    ],
  },
  {
    what: 'a gift',
    day: '2026-06-14',
    words: ['gone'],
    told: [
      ['Why', 'gift'],
      ['Date', ''],
      ['What left', 'mug'],
      ['What left', ''],
      ['Note', ''],
      SAVE,
    ],
  },
  {
    what: 'a breakage',
    day: '2026-06-14',
    words: ['gone'],
    told: [
      ['Why', 'b'],
      ['Date', ''],
      ['What left', 'bowl'],
      ['What left', ''],
      ['Note', ''],
      SAVE,
    ],
  },
  {
    what: 'a stocktake',
    day: '2026-06-14',
    words: ['add', 'counted'],
    told: [
      DATE,
      ['Materials: ', `12 kg fe${TAB}`],
      ['Materials (number 2)', ''],
      ['Pieces: ', '23 bowl first'],
      ['Pieces (number 2)', ''],
      SAVE,
    ],
  },
];

/** All records of the week; those of a day need not be in the order in which they happened. */
export const WEEK: readonly WeekRecord[] = [
  ...ON_MONDAY,
  ...AT_THE_KILN,
  ...ON_THE_WAY,
  ...AT_THE_END,
];
