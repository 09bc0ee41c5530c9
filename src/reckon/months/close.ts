/** Keeps a month that a run has come through. */
import type { Day } from '../../book.ts';
import { addDays, monthOf } from '../../number/date.ts';
import type { Pass } from '../pass.ts';
import { standingNow } from '../ware/ware.ts';
import type { SoldSale } from '../sales/earned.ts';
import { minutesOfGood } from '../costs/lot-steps.ts';
import type { KnownMonths, MonthHead } from './before.ts';
import { keptEnd } from './end.ts';
import { keptLot, type KeptLot } from './lots.ts';
import { type SoldAt, keptFiring, keptMovements, keptSales, keptWare } from './movements.ts';
import { sure } from './columns.ts';

/**
 * Where the run comes to a day of another month, the one before is over: it is kept. All lots that stand
 * are kept with the last months before the run's own day, after which most changes come.
 */
export function noteDay(
  pass: Pass,
  known: KnownMonths,
  { day, asOf }: { readonly day: Day; readonly asOf: Day },
): void {
  const { now } = pass;
  const isLate = now.last >= addDays(asOf, -LATE);
  if (now.month !== monthOf(day)) closeMonth(pass, known, isLate);
  now.month = monthOf(day);
  now.last = day;
}

const LATE = 92;

/** Keeps the month that the run ends with, of which nothing more can come, with all lots that stand. */
export function closeLast(pass: Pass, known: KnownMonths): void {
  closeMonth(pass, known, true);
}

function closeMonth(pass: Pass, known: KnownMonths, isLate: boolean): void {
  const { store, ware, now } = pass;
  if (now.month === '') return;
  ware.standing = standingNow(ware);
  const { book } = store;
  const sales = pass.sales.slice(now.sales);
  const fired = pass.firings.slice(now.firings);
  const touched = [...ware.touched];
  const worked = [...ware.worked];
  known.keep(
    {
      month: now.month,
      last: now.last,
      lots: touched.map(({ lot }) => lot.id),
      glazed: [...now.glazed.keys()],
      firings: fired.map(({ firing }) => firing.id),
      sales: daysOfSales(sales),
      worked: worked.map(({ lot }) => lot.id),
    },
    {
      movements: keptMovements(store.movements.slice(now.movements)),
      ware: keptWare(ware.facts.slice(now.facts), soldAt(pass)),
      sales: keptSales(sales),
      firings: fired.map(keptFiring),
      minutes: new Map(
        worked.map((state) => [state.lot.id, minutesOfGood(book, state)?.toFixed()]),
      ),
      lots: touched.map((state) => keptLot(book, state)),
      glazed: now.glazed,
      standing: isLate ? [...ware.standing.keys()].map((id) => keptNow(pass, id)) : [],
      end: keptEnd(pass, now.last),
    },
  );
  begin(pass);
}

function keptNow({ store: { book }, ware: { lots } }: Pass, id: string): KeptLot {
  return lots.asKept?.(id) ?? keptLot(book, sure(lots.get(id), id));
}

function soldAt({ ware, now }: Pass): readonly SoldAt[] {
  return ware.soldNow.map(({ product, fact }) => ({ product, fact: fact - now.facts }));
}

function daysOfSales(sales: readonly SoldSale[]): MonthHead['sales'] {
  const days = sales.flatMap(({ date, paid = date }) => [date, paid]).sort();
  const taught = sales.flatMap(({ lines }) => lines.filter(({ kind }) => kind === 'class'));
  const [first, last] = [days[0], days.at(-1)];
  if (first === undefined || last === undefined) return undefined;
  return { first, last, classes: [...new Set(taught.map(({ item }) => item))] };
}

function begin({ store, ware, sales, firings, now }: Pass): void {
  for (const state of ware.worked) now.worked.set(state.lot.id, state);
  ware.touched.clear();
  ware.worked.clear();
  ware.soldNow.length = 0;
  now.glazed.clear();
  now.movements = store.movements.length;
  now.facts = ware.facts.length;
  now.sales = sales.length;
  now.firings = firings.length;
}
