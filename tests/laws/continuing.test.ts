/** A run that goes on after months that are known comes to the same as one from nothing. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { flow, goOnFrom } from '../../src/reckon/flow.ts';
import { monthsOfThisRun } from '../../src/reckon/months/before.ts';
import { plainFlows } from '../helpers/plain-flows.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { dayIn, part } from './support/days.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';

it('whatever days are asked for, in whatever order', async () => {
  const plans = studioPlan({ days: 200, breaks: 'some' });
  const cases = fc.record({ plan: plans, when: fc.array(part, { minLength: 2, maxLength: 4 }) });
  const property = fc.asyncProperty(cases, async ({ plan, when }) => {
    const { asOf } = growStudio(plan);
    const { book } = await openFiles(filesOf(plan, undefined), asOf);
    const going = { ...book };
    goOnFrom(going, monthsOfThisRun());
    for (const day of when.map((each) => dayIn(plan, each)))
      expect(plainFlows(flow(going, day))).toEqual(plainFlows(flow({ ...book }, day)));
  });
  await holds(property, 2);
});
