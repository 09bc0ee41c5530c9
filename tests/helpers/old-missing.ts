/** Rows that studios of version 0.1.0 have now for what galleries owe for missing pieces. */
import type { Known } from './old-answers.ts';

const WHY = 'what a gallery owes for missing pieces is income, and owed until it is paid';

/** Row → the answers that have it, by studio. */
const ROWS: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>> = {
  example: {
    'owed-to-you, c250929un, Mizzle House Gallery': [
      'day',
      'day-as-of-2025-12-07',
      'day-as-of-2026-05-17',
    ],
    'Check before sending, missing.unpaid-missing': [
      'quarter',
      'quarter-basis-accrual',
      'quarter-2025',
      'quarter-2025-basis-accrual',
      'quarter-2025-Q3',
      'quarter-2025-Q4',
      'quarter-2026',
      'quarter-2026-Q1',
      'quarter-2025-tax-rate-22',
      'quarter-2025-sheet-plain',
      'quarter-2025-sheet-uk-sa103s',
    ],
    'From the cash basis to the accrual basis, basis.missing-pieces': [
      'quarter-2025',
      'quarter-2025-basis-accrual',
      'quarter-2025-Q3',
      'quarter-2025-Q4',
      'quarter-2025-tax-rate-22',
      'quarter-2025-sheet-plain',
      'quarter-2025-sheet-uk-sa103s',
    ],
    'Income, missing-pieces, 6': ['quarter-2025-basis-accrual'],
  },
  'grown-usd': {
    'owed-to-you, g240413es, north gallery': ['day', 'day-as-of-2024-06-15'],
    'owed-to-you, g241207cm, north gallery': ['day'],
    'owed-to-you, g250120cy, harbour gallery': ['day'],
    'Check before sending, missing.unpaid-missing': [
      'quarter',
      'quarter-basis-accrual',
      'quarter-2024',
      'quarter-2024-basis-accrual',
      'quarter-2024-Q4',
    ],
    'From the cash basis to the accrual basis, basis.missing-pieces': [
      'quarter',
      'quarter-basis-accrual',
      'quarter-2024',
      'quarter-2024-basis-accrual',
      'quarter-2024-Q4',
    ],
    'Income, missing-pieces, 6': ['quarter-basis-accrual', 'quarter-2024-basis-accrual'],
  },
  'grown-jpy': {
    'owed-to-you, g260212go, harbour gallery': ['day', 'day-as-of-2026-03-07'],
    'owed-to-you, g260422cq, north gallery': ['day'],
    'Check before sending, missing.unpaid-missing': [
      'quarter',
      'quarter-basis-accrual',
      'quarter-2025',
      'quarter-2025-basis-accrual',
      'quarter-2025-Q4',
      'quarter-2026',
      'quarter-2025-sheet-plain',
      'quarter-2025-sheet-uk-sa103s',
    ],
    'From the cash basis to the accrual basis, basis.missing-pieces': [
      'quarter',
      'quarter-basis-accrual',
      'quarter-2025',
      'quarter-2025-basis-accrual',
      'quarter-2025-Q4',
      'quarter-2026',
      'quarter-2025-sheet-plain',
      'quarter-2025-sheet-uk-sa103s',
    ],
    'Income, missing-pieces, 1': ['quarter-basis-accrual', 'quarter-2025-basis-accrual'],
  },
  'grown-kwd': {
    'owed-to-you, g251027pd, north gallery': ['day', 'day-as-of-2026-02-07'],
    'owed-to-you, g260226cv, harbour gallery': ['day'],
    'for missing pieces': ['income', 'income-year-2025', 'income-from-2025-11-01-to-2026-03-15'],
    'north-gallery, north gallery': ['income-year-2025-by-channel'],
    'Income, missing-pieces, 1': [
      'quarter',
      'quarter-2025',
      'quarter-2025-Q4',
      'quarter-2026',
      'quarter-2026-Q1',
      'quarter-2025-sheet-plain',
    ],
    'Check before sending, missing.unpaid-missing': [
      'quarter',
      'quarter-basis-cash',
      'quarter-2025',
      'quarter-2025-basis-cash',
      'quarter-2025-Q4',
      'quarter-2026',
      'quarter-2026-Q1',
      'quarter-2025-sheet-plain',
      'quarter-2025-sheet-us-schedule-c',
      'quarter-2025-sheet-uk-sa103s',
    ],
    'From the cash basis to the accrual basis, basis.missing-pieces': [
      'quarter',
      'quarter-basis-cash',
      'quarter-2025',
      'quarter-2025-basis-cash',
      'quarter-2025-Q4',
      'quarter-2026',
      'quarter-2026-Q1',
      'quarter-2025-sheet-plain',
      'quarter-2025-sheet-us-schedule-c',
      'quarter-2025-sheet-uk-sa103s',
    ],
    'Income, missing-pieces, 6': ['quarter-2025-sheet-us-schedule-c'],
    'Income, missing-pieces, 10': ['quarter-2025-sheet-uk-sa103s'],
  },
};

/** How many notes an answer had; it has one more now. */
const NOTES: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  example: { galleries: 1, 'galleries-as-of-2025-12-31': 1 },
  'grown-usd': { galleries: 1, 'galleries-as-of-2024-12-31': 1 },
  'grown-jpy': { galleries: 2 },
  'grown-kwd': { galleries: 2, 'galleries-as-of-2025-12-31': 2 },
};

/** Each row that is new, and each note. */
export const MISSING_PIECES: readonly Known[] = [
  ...Object.entries(ROWS).flatMap(([studio, rows]) =>
    Object.entries(rows).flatMap(([row, answers]) =>
      answers.map((answer): Known => ({
        ...{ studio, report: `${answer}.json`, row, why: WHY },
        ...{ column: 'row', old: 'none', new: 'there' },
      })),
    ),
  ),
  ...Object.entries(NOTES).flatMap(([studio, answers]) =>
    Object.entries(answers).map(([answer, count]): Known => ({
      ...{ studio, report: `${answer}.json`, row: 'notes', why: WHY },
      ...{ column: 'count', old: String(count), new: String(count + 1) },
    })),
  ),
];
