/** The program comes to the same cents as a second reckoning that knows nothing of it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { growStudio, studioPlan, type Break, type StudioPlan } from '../helpers/random-studio.ts';
import { reckonAgain } from '../second-reckoning/reckon-again.ts';
import { filesOf } from './support/broken.ts';
import { TOPICS, type Cents } from './support/cents.ts';
import { dayIn, part } from './support/days.ts';
import { PATIENCE, holds } from './support/law.ts';
import { openFiles } from './support/open.ts';
import { programCents } from './support/program-cents.ts';
import { secondCents } from './support/second-cents.ts';

interface Both {
  readonly program: Cents;
  readonly second: Cents;
}

/** Every topic is asked of the same studios. */
const known = new Map<string, Promise<Both>>();

function both(plan: StudioPlan, when: number): Promise<Both> {
  const key = JSON.stringify([plan, when]);
  const found = known.get(key) ?? reckonBoth(plan, when);
  known.set(key, found);
  return found;
}

async function reckonBoth(plan: StudioPlan, when: number): Promise<Both> {
  const { book } = await openFiles(filesOf(plan, undefined), growStudio(plan).asOf);
  const day = dayIn(plan, when);
  return {
    program: programCents(book, flow(book, day)),
    second: secondCents(reckonAgain(book, day)),
  };
}

/** Counts that a broken load leaves open are settled by no rule of the cents. */
const OPEN: readonly Break[] = ['lots', 'out-of-turn'];

const sound = studioPlan({ days: 150 });
const short = studioPlan({ days: 150, breaks: 'some' }).map((plan): StudioPlan => ({
  ...plan,
  breaks: plan.breaks.filter((each) => !OPEN.includes(each)),
}));

describe.each([
  { name: 'sound studios', plans: sound },
  { name: 'studios where stock or ware is short', plans: short },
])('the cents of $name', ({ plans }) => {
  it.each(TOPICS)('are the same by both reckonings: %s', { timeout: PATIENCE }, async (topic) => {
    const property = fc.asyncProperty(plans, part, async (plan, when) => {
      const { program, second } = await both(plan, when);
      expect(program[topic]).toEqual(second[topic]);
    });
    await holds(property, 12);
  });
});
