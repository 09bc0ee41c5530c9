/** A meter that ran backwards gives a firing a negative energy. */
import { spot } from '../finding.ts';
import { each, type Rule } from '../rule.ts';

export const meterRunsBackwards: Rule = {
  name: 'meter-runs-backwards',
  severity: 'error',
  about: "A firing's meter reads less after it than before it.",
  looks: [
    each('firings', (firing, { say }) => {
      const { meter } = firing;
      if (meter === undefined || meter.after.gte(meter.before)) return;
      say({
        at: spot(firing, 'meter', 'after'),
        message: `the meter read ${meter.before.toFixed()} before and ${meter.after.toFixed()} after`,
        hint: 'correct the reading; if the meter was replaced or rolled over, give the energy instead',
      });
    }),
  ],
};
