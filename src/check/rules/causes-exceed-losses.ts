/** Causes in `why` explain seconds and losses, so they can't be more than those. */
import { findEach, keySpot } from '../finding.ts';
import type { Rule } from '../rule.ts';

export const causesExceedLosses: Rule = {
  name: 'causes-exceed-losses',
  severity: 'error',
  about: 'The causes of a load line count more pieces than its seconds and lost.',
  find: (book) =>
    findEach(book.firings, (firing, say) => {
      firing.load.forEach((line, index) => {
        if (line.why === undefined) return;
        const second = line.second ?? 0;
        const lost = line.lost ?? 0;
        const counts = Object.values(line.why);
        const causes = counts.reduce((total, count) => total + count, 0);
        if (causes <= second + lost) return;
        say({
          at: keySpot(firing, 'load', index, 'why'),
          message: `the causes add up to ${causes}, but only ${second} second + ${lost} lost = ${second + lost} need one`,
          hint: 'give each second or lost piece one cause, and count no first among them',
        });
      });
    }),
};
