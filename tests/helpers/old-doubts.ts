/** Figures of the studios of version 0.1.0 that are asked about now. */
import type { Known } from './old-answers.ts';

/**
 * The sizes of these two studios were drawn evenly from wide ranges, energy from 10 to 120 kWh: a
 * kiln that mostly takes 50 or more and once takes 10 is to be asked about. The grown studio of
 * US dollars and the example, whose sizes are like a potter's, are asked about nothing.
 */
const WHY = 'it is six times the usual or more, or a sixth of it or less';

const ASKED: Readonly<Record<string, readonly string[]>> = {
  'grown-jpy': [
    'energy-slip warning firings/f260315qb.yaml 8',
    'weight-slip warning pieces/p260203mj.yaml 7',
  ],
  'grown-kwd': [
    'energy-slip warning firings/f251105iq.yaml 7',
    'energy-slip warning firings/f260209cn.yaml 10',
    'energy-slip warning firings/f260319uf.yaml 10',
    'energy-slip warning firings/f260322yv.yaml 6',
    'hours-slip warning pieces/p251028ji.yaml 7',
  ],
};

/** The answers of day that count them. */
const COUNTED_IN: Readonly<Record<string, readonly string[]>> = {
  'grown-jpy': ['day', 'day-as-of-2026-03-07'],
  'grown-kwd': ['day', 'day-as-of-2026-02-07'],
};

/** The findings of check that are new, in its order, and their number in day. */
export const DOUBTED: readonly Known[] = Object.entries(ASKED).flatMap(([studio, findings]) => [
  ...findings.map((finding, at) => ({
    ...{ studio, report: 'check.json', row: String(at), column: 'finding' },
    ...{ old: 'null', new: finding, why: WHY },
  })),
  ...(COUNTED_IN[studio] ?? []).flatMap((answer) => {
    const of = { studio, report: `${answer}.json`, row: 'problems, warnings', why: WHY };
    const count = String(findings.length);
    return [
      { ...of, column: 'count', old: '0', new: count },
      { ...of, column: 'says', old: '0 warnings', new: `${count} warnings` },
    ];
  }),
]);
