/** Studios older than their book, and kilns unloaded on a later day: both reckonings agree, nothing leaks. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Book, Day } from '../../src/book.ts';
import { addDays } from '../../src/number/date.ts';
import { NO_MONEY, add, less, total } from '../../src/number/money.ts';
import { flow } from '../../src/reckon/flow.ts';
import { goodsBetween, materialValue } from '../../src/reckon/stock/where.ts';
import { leak } from '../helpers/leak.ts';
import { growStudio, studioPlan, type StudioPlan } from '../helpers/random-studio.ts';
import { reckonAgain } from '../second-reckoning/reckon-again.ts';
import { begun } from './support/begun.ts';
import { filesOf } from './support/broken.ts';
import { dayIn, part } from './support/days.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';
import { programCents } from './support/program-cents.ts';
import { secondCents } from './support/second-cents.ts';

const plans = fc.record({
  plan: studioPlan({ days: 120 }),
  seed: fc.nat(),
  starts: fc.boolean(),
  from: part,
  when: part,
});

interface Drawn {
  readonly plan: StudioPlan;
  readonly seed: number;
  readonly starts: boolean;
  readonly from: number;
  readonly when: number;
}

async function bookOf({ plan, seed, starts, from }: Drawn): Promise<Book> {
  const { book } = await openFiles(filesOf(plan, undefined), growStudio(plan).asOf);
  return begun(book, { seed, starts, day: dayIn(plan, from / 2) });
}

it('the cents are the same by both reckonings', async () => {
  const property = fc.asyncProperty(plans, async (drawn) => {
    const book = await bookOf(drawn);
    const day = dayIn(drawn.plan, drawn.when);
    expect(programCents(book, flow(book, day))).toEqual(secondCents(reckonAgain(book, day)));
  });
  await holds(property, 3);
});

it('nothing leaks, and what was counted is opening stock', async () => {
  const property = fc.asyncProperty(plans, async (drawn) => {
    const book = await bookOf(drawn);
    const [from = '', to = ''] = [drawn.from, drawn.when].map((at) => dayIn(drawn.plan, at)).sort();
    const [eve, end] = [addDays(from, -1), to].map((day) => materialValue(flow(book, day)));
    if (!eve || !end) return;
    expect(leak(end)).toBe(NO_MONEY);
    const { opening, purchases, ownUse, closing, costOfGoodsSold } = goodsBetween(eve, end);
    const came = add(total(Object.values(opening)), purchases);
    expect(less(came, ownUse, total(Object.values(closing)))).toBe(costOfGoodsSold);
  });
  await holds(property, 3);
});

/** What is out of the kiln, sold or lost by a day, in words that tell one book from another. */
function told(book: Book, day: Day): unknown {
  const { ware, stock } = flow(book, day);
  const lots = [...ware.lots.values()].map(({ stages, shelf, places }) => ({
    stages,
    shelf,
    places,
  }));
  return { lots, sales: [...ware.sales].length, lost: ware.facts, movements: stock.movements };
}

it('what comes out of a kiln later changes nothing before', async () => {
  const property = fc.asyncProperty(plans, async (drawn) => {
    const book = await bookOf(drawn);
    for (const firing of book.firings.values()) {
      const { date, unloaded = date } = firing;
      if (unloaded === date) continue;
      const load = firing.load.map((line) => {
        const { first, second, lost, why, ...rest } = line;
        return [first, second, lost, why].length > 0 ? rest : line;
      });
      const still = {
        ...book,
        firings: new Map([...book.firings, [firing.id, { ...firing, load }]]),
      };
      const before = addDays(unloaded, -1);
      expect(told(book, before)).toEqual(told(still, before));
      return;
    }
  });
  await holds(property, 3);
});
