/** How stock and ware stand at the end of a month, but for the lots, as data that can be kept. */
import type { Day } from '../../book.ts';
import { decimal } from '../../number/decimal.ts';
import type { Money } from '../../number/money.ts';
import type { Pool } from '../stock/pool.ts';
import type { Shortfall, StockPool, Store } from '../stock/stock.ts';
import type { OpenGlaze, Ware } from '../ware/ware.ts';
import type { StockFlow } from '../flows.ts';
import type { LotValue } from '../ware/lot.ts';
import { type KeptPieces, keptPieces, piecesKept, sure } from './columns.ts';
import { type Open, type TaxSums, openBy, settledBy } from '../open.ts';

/** Stock and ware at the end of a month. */
export interface KeptEnd {
  readonly pools: readonly KeptPool[];
  /** Of all movements so far, and of all facts of ware. */
  readonly sums: readonly [stock: StockFlow['sums'], ware: Ware['sums']];
  readonly taxes: TaxSums;
  readonly open: Open;
  readonly tooLittle: readonly KeptShortfall[];
  readonly tooFew: readonly KeptShortfall[];
  /** Lots of which pieces are anywhere with the material in them, and by product those of which finished ones are. */
  readonly standing: ReadonlyMap<string, LotValue>;
  readonly ready: readonly (readonly [product: string, lots: readonly string[]])[];
  readonly latest: readonly (readonly [product: string, lot: string])[];
  readonly lastLoad: readonly (readonly [product: string, pieces: KeptPieces])[];
  readonly returned: readonly (readonly [key: string, pieces: KeptPieces])[];
  readonly opened: ReadonlySet<string>;
  readonly glazes: ReadonlyMap<string, ReadonlySet<string>>;
  readonly unglazed: ReadonlySet<string>;
  readonly openGlazes: readonly OpenGlaze[];
  /** Product, grade and place → which of those. */
  readonly openAt: readonly (readonly [key: string, at: readonly number[]])[];
}

/** A pool, since when it was moved, and what was in it when the book began. */
type KeptPool = readonly [
  id: string,
  pool: Omit<Pool, 'valuing'>,
  since: Day | undefined,
  opened: Money,
];

type KeptShortfall = Omit<Shortfall, 'wanted' | 'had'> & {
  readonly wanted: string;
  readonly had: string;
};

/** Stock, ware and what is not settled, while the events are gone through. */
export interface Ledgers {
  readonly store: Store;
  readonly ware: Ware;
  readonly taxes: TaxSums;
  readonly open: Open;
}

/** What stands at the end of a day, to be kept. */
export function keptEnd({ store, ware, taxes, open }: Ledgers, last: Day): KeptEnd {
  const openGlazes = ware.openGlazes.filter((each) => each.open.size > 0);
  return {
    pools: [...store.pools.values()].map(keptPool),
    sums: [store.sums, ware.sums],
    taxes: settledBy(taxes, last),
    open: openBy(open, last),
    tooLittle: store.shortfalls.map(keptShortfall),
    tooFew: ware.shortfalls.map(keptShortfall),
    standing: ware.standing,
    ready: readyLots(ware),
    latest: [...ware.latest],
    lastLoad: [...ware.lastLoad].map(([product, pieces]) => [product, keptPieces(pieces)]),
    returned: [...ware.returned].map(([key, pieces]) => [key, keptPieces(pieces)]),
    opened: ware.opened,
    glazes: ware.glazes,
    unglazed: ware.unglazed,
    openGlazes,
    openAt: [...ware.openAt].map(([key, takings]) => [
      key,
      takings.map((each) => openGlazes.indexOf(each)).filter((at) => at !== -1),
    ]),
  };
}

function readyLots({ ready, unlisted }: Ware): KeptEnd['ready'] {
  const listed = [...ready].map(([product, places]) => {
    const states = new Set([...places.values()].flat());
    return [product, [...states].map(({ lot }) => lot.id)] as const;
  });
  return [...listed, ...unlisted];
}

function keptPool({ id, pool, since, opened }: StockPool): KeptPool {
  const { layers, onHand, gap, beyond, drawnLast, cameLast } = pool;
  return [id, { layers, onHand, gap, beyond, drawnLast, cameLast }, since, opened];
}

function keptShortfall({ wanted, had, ...shortfall }: Shortfall): KeptShortfall {
  return { ...shortfall, wanted: wanted.toFixed(), had: had.toFixed() };
}

/** Puts stock back as it stood. */
export function putStockBack(store: Store, kept: KeptEnd): void {
  store.shortfalls.push(...kept.tooLittle.map(shortfallKept));
  const [sums] = kept.sums;
  for (const [reason, value] of sums) store.sums.set(reason, value);
  for (const [id, { layers, ...pool }, since, opened] of kept.pools) {
    const stock = sure(store.pools.get(id), id);
    Object.assign(stock, { since, opened });
    Object.assign(stock.pool, pool);
    stock.pool.layers.push(...layers);
  }
}

/** Puts ware back as it stood, but for the lots, which are there already. */
export function putWareBack(ware: Ware, kept: KeptEnd): void {
  const [, sums] = kept.sums;
  for (const [reason, value] of sums.byReason) ware.sums.byReason.set(reason, value);
  for (const [at, value] of sums.opened) ware.sums.opened.set(at, value);
  ware.shortfalls.push(...kept.tooFew.map(shortfallKept));
  for (const [product, lots] of kept.ready) ware.unlisted.set(product, lots);
  for (const [product, lot] of kept.latest) ware.latest.set(product, lot);
  for (const [product, pieces] of kept.lastLoad) ware.lastLoad.set(product, piecesKept(pieces));
  for (const [key, pieces] of kept.returned) ware.returned.set(key, piecesKept(pieces));
  for (const key of kept.opened) ware.opened.add(key);
  for (const id of kept.unglazed) ware.unglazed.add(id);
  for (const [product, glazes] of kept.glazes) ware.glazes.set(product, new Set(glazes));
  const open = kept.openGlazes.map((each) => ({ ...each, open: new Set(each.open) }));
  ware.openGlazes.push(...open);
  for (const [key, at] of kept.openAt)
    ware.openAt.set(
      key,
      at.flatMap((each) => open[each] ?? []),
    );
}

function shortfallKept({ wanted, had, ...shortfall }: KeptShortfall): Shortfall {
  return { ...shortfall, wanted: decimal(wanted), had: decimal(had) };
}
