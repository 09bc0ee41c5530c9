/** A load line's outcome must account for every piece that went in. */
import { counted } from '../../in-words.ts';
import type { LoadLine } from '../../book.ts';
import { spot } from '../finding.ts';
import { outcomeOf } from '../../reckon/out-of-kiln.ts';
import { each, type Rule } from '../rule.ts';

export const loadDoesNotAddUp: Rule = {
  name: 'load-does-not-add-up',
  severity: 'error',
  about: 'The firsts, seconds and lost of a load line do not make the pieces that went in.',
  looks: [
    each('firings', (firing, { say }) => {
      firing.load.forEach((line, index) => {
        const out = cameOut(line);
        if (out === undefined || out === line.in) return;
        say({
          at: spot(firing, 'load', index, 'in'),
          message: `${counted(line.in, 'piece')} went in, but ${sum(line)} = ${out} came out`,
          hint: 'count again: first, second and lost together are the pieces that went in',
        });
      });
    }),
  ],
};

/** Pieces accounted for, or undefined while the line is still in the kiln. */
function cameOut(line: LoadLine): number | undefined {
  const outcome = outcomeOf(line);
  return outcome && outcome.first + outcome.second + outcome.lost;
}

function sum({ first, second, lost }: LoadLine): string {
  return `${first ?? 0} first + ${second ?? 0} second + ${lost ?? 0} lost`;
}
