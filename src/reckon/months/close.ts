/** Keeps a month that a run has come through. */
import type { Day } from '../../book.ts';
import { monthOf } from '../../number/date.ts';
import type { Pass } from '../pass.ts';
import { isStanding, lotsStanding } from '../lots.ts';
import type { LotState } from '../ware.ts';
import type { KnownMonths } from './before.ts';
import { keptEnd } from './end.ts';
import { keptFacts } from './facts.ts';
import { keptLot } from './lots.ts';

/** Where the run comes to a day of another month, the one before is over: it is kept. */
export function noteDay(pass: Pass, known: KnownMonths, day: Day): void {
  const { now } = pass;
  if (now.month !== monthOf(day)) closeMonth(pass, known, []);
  now.month = monthOf(day);
  now.last = day;
}

/** Keeps the month that the run ends with, of which nothing more can come, with all lots that stand. */
export function closeLast(pass: Pass, known: KnownMonths): void {
  if (pass.now.month === '') return;
  closeMonth(pass, known, [...lotsStanding(pass.ware.lots)].filter(isStanding));
}

function closeMonth(pass: Pass, known: KnownMonths, standing: readonly LotState[]): void {
  const { store, ware, sales, firings, now } = pass;
  if (now.month === '') return;
  const touched = [...ware.touched];
  const fired = firings.slice(now.firings);
  const facts = {
    movements: store.movements.slice(now.movements),
    ware: ware.facts.slice(now.facts),
    sales: sales.slice(now.sales),
    firings: fired,
    sold: ware.soldNow.map(({ product, fact }) => ({ product, fact: fact - now.facts })),
  };
  known.keep(
    {
      month: now.month,
      last: now.last,
      lots: touched.map(({ lot }) => lot.id),
      glazed: [...now.glazed.keys()],
      firings: fired.map(({ firing }) => firing.id),
    },
    {
      facts: keptFacts(facts),
      lots: touched.map((state) => keptLot(store.book, state)),
      glazed: now.glazed,
      standing: standing.map((state) => keptLot(store.book, state)),
      end: keptEnd(store, ware),
    },
  );
  begin(pass);
}

function begin({ store, ware, sales, firings, now }: Pass): void {
  ware.touched.clear();
  ware.soldNow.length = 0;
  now.glazed.clear();
  now.movements = store.movements.length;
  now.facts = ware.facts.length;
  now.sales = sales.length;
  now.firings = firings.length;
}
