/** The day on which a gallery paid for missing pieces, before they were missed or still to come. */
import { expect, it } from 'vitest';
import { foundIn } from '../../src/check/looking.ts';
import { NOTHING_UNSOUND } from '../../src/check/rule.ts';
import { DAY_RULES } from '../../src/check/rules/days.ts';
import { SALE_RULES } from '../../src/check/rules/sales.ts';
import { bookFrom } from '../helpers/book.ts';

const line = (paid: string): string => `{ product: mug, count: 1, owed: 19.20${paid} }`;
const lines = [line(''), line(', paid: no'), line(', paid: 2026-05-02')];
const BOOK = bookFrom({
  consigned: `
g1: { date: 2026-05-02, channel: nook, missing: [${lines.join(', ')}] }
g2: { date: 2026-05-02, channel: nook, missing: [${line(', paid: 2026-04-02')}] }
g3: { date: 2026-05-02, channel: nook, missing: [${line('')}, ${line(', paid: 2026-07-02')}] }
`,
});

it.each([
  { rule: 'paid-before-sold', path: ['g2', 'missing', 0, 'paid'] },
  { rule: 'future-date', path: ['g3', 'missing', 1, 'paid'] },
])('is told by $rule alone', ({ rule, path }) => {
  const rules = [...SALE_RULES, ...DAY_RULES].filter(({ name }) => name === rule);
  const judging = { rules, book: BOOK, unsound: NOTHING_UNSOUND };
  const found = foundIn(judging, {
    day: '2026-06-30',
    shortBeside: () => ({ of: () => [], early: [], after: () => [] }),
  });
  expect(found.map(({ at }) => at)).toEqual([{ file: 'consigned.yaml', path }]);
});
