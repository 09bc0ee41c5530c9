/** Causes in `why` explain seconds and losses, and those in `lost-to` the losses: they can't be more. */
import type { LoadLine } from '../../book.ts';
import { keySpot } from '../finding.ts';
import { each, type Rule } from '../rule.ts';

export const causesExceedLosses: Rule = {
  name: 'causes-exceed-losses',
  severity: 'error',
  about:
    'The causes of a load line count more pieces than its seconds and lost, or its lost-to does not fit them.',
  looks: [
    each('firings', (firing, { say }) => {
      firing.load.forEach((line, index) => {
        const found = tooManyCauses(line) ?? unfitLostTo(line);
        if (!found) return;
        const { field, message, hint } = found;
        say({ at: keySpot(firing, 'load', index, field), message, hint });
      });
    }),
  ],
};

interface Misfit {
  readonly field: 'why' | 'lost-to';
  readonly message: string;
  readonly hint: string;
}

function tooManyCauses({ why, second = 0, lost = 0 }: LoadLine): Misfit | undefined {
  const causes = sumOf(why);
  if (causes <= second + lost) return undefined;
  return {
    field: 'why',
    message: `the causes add up to ${causes}, but only ${second} second + ${lost} lost = ${second + lost} need one`,
    hint: 'give each second or lost piece one cause, and count no first among them',
  };
}

function unfitLostTo(line: LoadLine): Misfit | undefined {
  if (line.lostTo === undefined) return undefined;
  const message = lostToMessage(line, line.lostTo);
  if (message === undefined) return undefined;
  const hint =
    'lost-to says which causes of why the lost pieces are due to; the rest are of seconds';
  return { field: 'lost-to', message, hint };
}

function lostToMessage(
  { why = {}, second = 0, lost = 0 }: LoadLine,
  lostTo: NonNullable<LoadLine['lostTo']>,
): string | undefined {
  const causes = Object.entries(lostTo) as [keyof typeof why, number][];
  for (const [cause, count] of causes) {
    const inWhy = why[cause] ?? 0;
    if (count > inWhy) return `lost-to has ${count} ${cause}, but why has only ${inWhy}`;
  }
  const all = sumOf(lostTo);
  if (all > lost) return `lost-to adds up to ${all}, but only ${lost} were lost`;
  const rest = sumOf(why) - all;
  return rest > second
    ? `why has ${rest} more than lost-to, but only ${second} are seconds`
    : undefined;
}

function sumOf(causes: LoadLine['why'] = {}): number {
  return Object.values(causes).reduce((total, count) => total + count, 0);
}
