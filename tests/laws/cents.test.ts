/** The program comes to the same cents as a second reckoning that knows nothing of it. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { growStudio, studioPlan, type Break, type StudioPlan } from '../helpers/random-studio.ts';
import { reckonAgain } from '../second-reckoning/reckon-again.ts';
import { filesOf } from './support/broken.ts';
import { dayIn, part } from './support/days.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';
import { programCents } from './support/program-cents.ts';
import { secondCents } from './support/second-cents.ts';

/** Counts that a broken load leaves open are settled by no rule of the cents. */
const OPEN: readonly Break[] = ['lots', 'out-of-turn'];

const sound = studioPlan({ days: 150 });
const short = studioPlan({ days: 150, breaks: 'some' }).map((plan): StudioPlan => ({
  ...plan,
  breaks: plan.breaks.filter((each) => !OPEN.includes(each)),
}));

it.each([
  { name: 'sound studios', plans: sound },
  { name: 'studios where stock or ware is short', plans: short },
])('the cents of $name are the same by both reckonings', async (kind) => {
  const property = fc.asyncProperty(kind.plans, part, async (plan, when) => {
    const { book } = await openFiles(filesOf(plan, undefined), growStudio(plan).asOf);
    const day = dayIn(plan, when);
    expect(programCents(book, flow(book, day))).toEqual(secondCents(reckonAgain(book, day)));
  });
  await holds(property, 3);
});
