/** Nothing leaks: all value that came in stands somewhere or left in a known way, to the last minor unit. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book, Day } from '../../src/book.ts';
import { grouped } from '../../src/grouping.ts';
import { addDays } from '../../src/number/date.ts';
import { NO_MONEY, add, total, type Money } from '../../src/number/money.ts';
import { materialOf, type Cost } from '../../src/reckon/costs/cost.ts';
import { flow } from '../../src/reckon/flow.ts';
import { standingNow } from '../../src/reckon/ware/ware.ts';
import type { Flows } from '../../src/reckon/flows.ts';
import { materialValue } from '../../src/reckon/stock/where.ts';
import { materialValueTable } from '../../src/report/materials.ts';
import { leak } from '../helpers/leak.ts';
import { growStudio, studioPlan, type StudioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { costLeaks, putIn, putInByLot, standingAndGone } from './support/costs.ts';
import { dayIn, part } from './support/days.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';

type Reckon = (book: Book, day: Day) => Flows;

const VALUINGS = ['average', 'first-in'] as const;
const OWN = ['sold', 'lost', 'given', 'kept', 'differences'] as const;
const ALL = [...OWN, 'others'] as const;

/** Plans of consistent studios, of some that break rules, and of some with records spoiled by a seed. */
const plans = fc.oneof(
  fc.tuple(studioPlan(), fc.constant(undefined)),
  fc.tuple(studioPlan({ breaks: 'some' }), fc.constant(undefined)),
  fc.tuple(studioPlan({ breaks: 'some' }), fc.nat()),
);

/** The studio's book under each way of valuing its stock. */
async function booksOf(plan: StudioPlan, seed: number | undefined): Promise<Book[]> {
  const { book } = await openFiles(filesOf(plan, seed), growStudio(plan).asOf);
  return VALUINGS.map((stockValue) => ({ ...book, studio: { ...book.studio, stockValue } }));
}

function valueIsSomewhere(reckon: Reckon) {
  return fc.asyncProperty(plans, part, async ([plan, seed], when) => {
    for (const book of await booksOf(plan, seed))
      for (const day of [dayIn(plan, when), dayIn(plan, 1)])
        expect(leak(materialValue(reckon(book, day)))).toBe(NO_MONEY);
  });
}

function periodAddsUp(reckon: Reckon) {
  return fc.asyncProperty(plans, fc.tuple(part, part), async ([plan, seed], parts) => {
    const [from = '', to = ''] = parts.map((when) => dayIn(plan, when)).sort();
    for (const book of await booksOf(plan, seed)) {
      const start = { from, eve: flow(book, addDays(from, -1)) };
      const { totals } = materialValueTable(book, reckon(book, to), start);
      expect(totals?.['wentTo']).toBe(totals?.['cameFrom']);
    }
  });
}

function sumsAreOfFacts() {
  return fc.asyncProperty(plans, part, async ([plan, seed], when) => {
    for (const book of await booksOf(plan, seed)) {
      const { stock, ware } = flow(book, dayIn(plan, when));
      const facts = [...ware.facts].map((fact) => ({ ...fact, value: materialOf(fact.cost) }));
      expect(stock.sums).toEqual(sumsBy(stock.movements, ({ reason }) => reason));
      expect(ware.sums.byReason).toEqual(sumsBy(facts, ({ reason }) => reason));
      const opened = facts.filter(({ reason }) => reason === 'opened');
      expect(ware.sums.opened).toEqual(sumsBy(opened, ({ at = '' }) => at));
      const openings = [...stock.movements].filter(({ reason }) => reason === 'opening');
      const byPool = sumsBy(openings, ({ pool }) => pool);
      for (const { id, since, opened: value } of stock.pools.values()) {
        expect(since).toBe([...stock.movements].find(({ pool }) => pool === id)?.day);
        expect(value).toBe(byPool.get(id) ?? NO_MONEY);
      }
    }
  });
}

function sumsBy<T extends { readonly value: Money }, K>(
  facts: Iterable<T>,
  keyOf: (fact: T) => K,
): Map<K, Money> {
  const groups = [...grouped(facts, keyOf)];
  return new Map(groups.map(([key, group]) => [key, total(group.map(({ value }) => value))]));
}

function costsAreSomewhere(reckon: Reckon) {
  return fc.asyncProperty(plans, part, async ([plan, seed], when) => {
    for (const book of await booksOf(plan, seed))
      for (const flows of [reckon(book, dayIn(plan, when)), reckon(book, dayIn(plan, 1))])
        expect(costLeaks(putIn(book, flows), standingAndGone(flows, ALL))).toEqual({});
  });
}

/** Alone in its book, every cost that isn't somebody else's must be the lot's. */
function lotKeepsItsCosts(reckon: Reckon) {
  return fc.asyncProperty(plans, fc.nat(), part, async ([plan, seed], which, when) => {
    for (const whole of await booksOf(plan, seed)) {
      const lots = [...whole.pieces.values()];
      const lot = lots[which % lots.length];
      if (!lot) return;
      const book = { ...whole, pieces: new Map([[lot.id, lot]]) };
      const flows = reckon(book, dayIn(plan, when));
      const { packing = NO_MONEY } = putIn(book, flows);
      const put = { ...putInByLot(book, flows, lot.id), packing };
      expect(costLeaks(put, standingAndGone(flows, OWN))).toEqual({});
    }
  });
}

/** The laws held against a reckoning that may fail them. */
const TRIED = {
  valueIsSomewhere: (reckon: Reckon) => fc.check(valueIsSomewhere(reckon), SOON),
  periodAddsUp: (reckon: Reckon) => fc.check(periodAddsUp(reckon), SOON),
  costsAreSomewhere: (reckon: Reckon) => fc.check(costsAreSomewhere(reckon), SOON),
  lotKeepsItsCosts: (reckon: Reckon) => fc.check(lotKeepsItsCosts(reckon), SOON),
};

describe('nothing leaks', () => {
  it('material value stands somewhere or left, on any day', async () => {
    await holds(valueIsSomewhere(flow), 5);
  });

  it('over any period the value before and what was bought is all there', async () => {
    await holds(periodAddsUp(flow), 4);
  });

  it('the running sums are those of what was noted', async () => {
    await holds(sumsAreOfFacts(), 4);
  });

  it('every component of cost is in ware or in an account', async () => {
    await holds(costsAreSomewhere(flow), 4);
  });

  it('a lot keeps the costs of its making and firings', async () => {
    await holds(lotKeepsItsCosts(flow), 5);
  });
});

const LEAST = -1n as Money;
const LOST: Cost = { clay: LEAST };

function withLess<K>(sums: ReadonlyMap<K, Money>, key: K): Map<K, Money> {
  return new Map([...sums, [key, add(sums.get(key) ?? NO_MONEY, LEAST)]]);
}

/** Ways to lose the least amount that there is, in what the flow of a day has come to. */
const HOLES = {
  'a purchase': ({ stock, ...flows }: Flows): Flows => {
    const bought = stock.sums.get('bought');
    if (bought === undefined) return { ...flows, stock };
    return { ...flows, stock: { ...stock, sums: withLess(stock.sums, 'bought') } };
  },
  'an account': ({ ware, ...flows }: Flows): Flows => ({
    ...flows,
    ware: {
      ...ware,
      facts: [
        ...ware.facts,
        { day: '2025-09-20', reason: 'lost', by: '', lot: '', count: 0, cost: LOST },
      ],
      sums: { ...ware.sums, byReason: withLess(ware.sums.byReason, 'lost') },
    },
  }),
  'a pile in the kiln': ({ ware, ...flows }: Flows): Flows => {
    const [first, ...others] = ware.lots;
    if (!first) return { ...flows, ware };
    const [id, lot] = first;
    const pile = { firing: '', line: { in: 0 }, from: 0, to: 0, added: {}, count: 0, cost: LOST };
    const lots = new Map([[id, { ...lot, inKiln: [...lot.inKiln, pile] }], ...others]);
    const touched = new Set(lots.values());
    const standing = () => standingNow({ standing: new Map(), touched });
    return { ...flows, ware: { ...ware, lots, standing } };
  },
};

const SOON = { numRuns: 60, endOnFailure: true };

describe('a planted leak of one minor unit', () => {
  it.each([
    ['valueIsSomewhere', 'a purchase'],
    ['valueIsSomewhere', 'an account'],
    ['valueIsSomewhere', 'a pile in the kiln'],
    ['periodAddsUp', 'a purchase'],
    ['periodAddsUp', 'an account'],
    ['costsAreSomewhere', 'an account'],
    ['costsAreSomewhere', 'a pile in the kiln'],
    ['lotKeepsItsCosts', 'an account'],
    ['lotKeepsItsCosts', 'a pile in the kiln'],
  ] as const)('is seen by %s in %s', async (law, hole) => {
    const { failed } = await TRIED[law]((book, day) => HOLES[hole](flow(book, day)));
    expect(failed).toBe(true);
  });
});
