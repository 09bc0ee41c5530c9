/** Where the pieces stand: what waits for which firing, what is in a kiln, what is ready to sell. */
import { recordsNaming } from '../../among.ts';
import type { Book, Day, Firing, FiringKind, Kiln } from '../../book.ts';
import { type Decimal, ZERO, decimal, divide } from '../../number/decimal.ts';
import { leftIn } from '../costs/cost.ts';
import { type Open, countStillIn } from '../open.ts';
import { spaceOfOne } from '../kilns/firing-cost.ts';
import { outOn, outcomeOf } from '../kilns/out-of-kiln.ts';
import { STUDIO_PLACE, type LotState } from './lot.ts';
import { lotsStanding } from './ware.ts';
import type { Flows, WareFlow } from '../flows.ts';
import { byDate } from '../../text-order.ts';

/** Pieces of one lot that wait for their next firing. */
export interface Waiting {
  readonly lot: string;
  readonly product: string;
  /** The one-off's title, else the product's name. */
  readonly name: string;
  /** The firings that it goes through, and how many of them it has had. */
  readonly fired: readonly FiringKind[];
  readonly stage: number;
  readonly next: FiringKind;
  readonly count: number;
  /** Kiln space that they take together. */
  readonly space: Decimal;
  /** The day they were made, or came out of their last firing. */
  readonly since: Day;
}

/** Pieces that went into a kiln and have no outcome yet; those of classes and customers among them. */
export interface InKiln {
  readonly firing: Firing;
  readonly kilnName: string;
  readonly count: number;
}

/** Finished ware of one product at one place. */
export interface Ready {
  readonly product: string;
  readonly name: string;
  /** Id of the channel; the studio's own is empty. */
  readonly place: string;
  readonly first: number;
  readonly second: number;
}

/** Everything that waits for a firing, what has stood longest first. */
export function waitingWare(book: Book, ware: WareFlow): Waiting[] {
  return [...lotsStanding(ware.lots)]
    .flatMap((state) => waitingOf(book, ware.asOf, state))
    .sort((a, b) => (a.since + a.lot < b.since + b.lot ? -1 : 1));
}

/** Firings that are still in the kiln at the end of the day, the oldest first. */
export function firingsInKiln(book: Book, { stock: { asOf }, open }: Flows): InKiln[] {
  return [...open.firings]
    .flatMap((id) => book.firings.get(id) ?? [])
    .map((firing) => ({
      firing,
      kilnName: book.kilns.get(firing.kiln)?.name ?? firing.kiln,
      count: countStillIn(firing, asOf),
    }))
    .filter(({ count }) => count > 0)
    .sort((a, b) => byDate(a.firing, b.firing));
}

/** Finished ware by product and place: the studio's first, then by place; most pieces first. */
export function readyWare(book: Book, ware: WareFlow): Ready[] {
  const found = new Map<string, Ready>();
  for (const { lot, places } of lotsStanding(ware.lots)) {
    for (const [key, count] of places) addReady(found, book, { product: lot.product, key, count });
  }
  return [...found.values()].filter((each) => piecesOf(each) > 0).sort(byPlace);
}

/** Firsts and seconds together. */
export function piecesOf({ first, second }: Pick<Ready, 'first' | 'second'>): number {
  return first + second;
}

function waitingOf(book: Book, asOf: Day, state: LotState): Waiting[] {
  const { lot, product } = state;
  return state.stages.flatMap((batch, stage) => {
    const next = state.fired[stage];
    const count = leftIn(batch);
    if (next === undefined || count <= 0) return [];
    return [
      {
        lot: lot.id,
        product: lot.product,
        name: lot.title ?? productName(book, lot.product),
        fired: state.fired,
        stage,
        next,
        count,
        space: spaceOfOne(product, next).times(decimal(count)),
        since: stage === 0 ? lot.date : (lastOut(book, asOf, state) ?? lot.date),
      },
    ];
  });
}

function productName(book: Book, product: string): string {
  return book.products.get(product)?.name ?? product;
}

/** The day of the last firing that a lot came out of; firings from before the book starts only name it. */
function lastOut(book: Book, asOf: Day, { lot, wasThere, passes }: LotState): Day | undefined {
  const named = wasThere ? [...recordsNaming(book.firings, new Set([lot.id]))] : [];
  const earlier = named.filter(({ load }) =>
    load.some((line) => line.lot === lot.id && outcomeOf(line)),
  );
  const days = [...passes.map(({ firing }) => firing), ...earlier].map(outOn);
  return days
    .filter((day) => day <= asOf)
    .sort()
    .at(-1);
}

function addReady(
  found: Map<string, Ready>,
  book: Book,
  { product, key, count }: { product: string; key: string; count: number },
): void {
  const [grade = 'first', place = STUDIO_PLACE] = key.split(' ');
  const name = productName(book, product);
  const known = found.get(`${place} ${product}`) ?? { product, name, place, first: 0, second: 0 };
  const added =
    grade === 'second' ? { second: known.second + count } : { first: known.first + count };
  found.set(`${place} ${product}`, { ...known, ...added });
}

function byPlace(one: Ready, other: Ready): number {
  if (one.place !== other.place) return one.place < other.place ? -1 : 1;
  const more = piecesOf(other) - piecesOf(one);
  if (more !== 0) return more;
  return one.product < other.product ? -1 : 1;
}

/** The ware that waits for one kind of firing, against one kiln. */
export interface KilnRoom {
  readonly kind: FiringKind;
  readonly kiln: Kiln;
  /** Space of all ware that waits for the kind, in the unit of the products' space. */
  readonly waiting: Decimal;
  /** The kiln's own. */
  readonly space: Decimal;
  /** Waiting ÷ space; above 1 some has to wait for another load. */
  readonly share: Decimal;
}

/**
 * For each kind of firing that ware waits for, every kiln that fires that kind: those that have fired
 * it so far, or where none has, all. Kilns without a stated space are left out. In the order
 * in which a pot comes to the kinds, then of the kilns' ids.
 */
export function kilnRoom(book: Book, open: Open, waiting: readonly Waiting[]): KilnRoom[] {
  return [...spaces(waiting)].flatMap(([kind, space]) =>
    kilnsFor(book, open, kind).flatMap((kiln) => roomIn(kiln, kind, space)),
  );
}

function spaces(waiting: readonly Waiting[]): Map<FiringKind, Decimal> {
  const byKind = new Map<FiringKind, Decimal>();
  for (const { next, space } of waiting) byKind.set(next, (byKind.get(next) ?? ZERO).plus(space));
  return new Map([...byKind].sort(([a], [b]) => rank(a) - rank(b)));
}

/** The kinds in the order in which a pot may come to them. */
const ORDER: readonly FiringKind[] = ['bisque', 'once', 'glaze', 'raku', 'lustre', 'test'];

function rank(kind: FiringKind): number {
  return ORDER.indexOf(kind);
}

function kilnsFor(book: Book, { fired }: Open, kind: FiringKind): Kiln[] {
  const kilns = [...book.kilns.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
  const proven = kilns.filter(({ id }) => fired.get(kind)?.has(id));
  return proven.length === 0 ? kilns : proven;
}

function roomIn(kiln: Kiln, kind: FiringKind, waiting: Decimal): KilnRoom[] {
  const { space } = kiln;
  if (!space?.gt(ZERO)) return [];
  return [{ kind, kiln, waiting, space, share: divide(waiting, space) }];
}
