/** What a trace begins with: whatever a word names, an id, the number on a bag or the mark on a foot. */
import type { Book, Day, Kind, Test } from '../../book.ts';
import { KINDS } from '../../book.ts';
import type { Flows } from '../flows.ts';
import { versionOn } from '../stock/recipe.ts';
import { affectedByFiring, anyOfLot, wholeLot, type AffectedLots } from './affected.ts';
import type { Certainty } from './links.ts';
import { suppliesOf, type Supply } from './supplies.ts';
import { usesOf, type MaterialUse } from './uses.ts';
import { whereabouts } from './whereabouts.ts';

/** Where a trace begins. */
export interface TraceStart {
  /** `bag CB3711`, `lot p260308kt`. */
  readonly title: string;
  readonly supplies: readonly Supply[];
  readonly uses: ReadonlyMap<MaterialUse, Certainty>;
  /** Lots that it begins with, where it begins with ware. */
  readonly lots?: AffectedLots;
  /** The record whose pieces alone are meant. */
  readonly only?: string;
  /** Whether what is in it is asked for too. */
  readonly looksBack: boolean;
}

/** Why nothing can be traced from a record. */
export interface NoStart {
  readonly kind: Kind | undefined;
}

const NO_USES: ReadonlyMap<MaterialUse, Certainty> = new Map();

interface StartAsked {
  readonly book: Book;
  readonly flows: Flows;
  readonly id: string;
  /** Of a recipe: the day whose version is meant. */
  readonly inForce?: Day | undefined;
}

/** What a word names, by id first, then by the number on a bag, then by a mark. */
export function originOf(asked: StartAsked): TraceStart | NoStart {
  const { book, id } = asked;
  const kind = KINDS.find((each) => book[each].has(id));
  const from = kind && ORIGINS[kind]?.(asked);
  if (from) return from;
  return kind === undefined ? (ofBag(book, id) ?? ofMark(book, id) ?? { kind }) : { kind };
}

const ORIGINS: Partial<Readonly<Record<Kind, (asked: StartAsked) => TraceStart | undefined>>> = {
  materials: ({ book, id }) => ({
    ...ofSupplies(`material ${id}`, suppliesOf(book).get(id) ?? []),
    uses: usesOfPool(book, id),
  }),
  bought: ({ book, id }) => ofSupplies(`purchase ${id}`, suppliesBy(book, id)),
  reclaimed: ({ book, id }) => ofSupplies(`reclaimed clay ${id}`, suppliesBy(book, id)),
  counted: ({ book, id }) => {
    const supplies = suppliesBy(book, id);
    return supplies.length === 0 ? undefined : ofSupplies(`opening count ${id}`, supplies);
  },
  mixed: ({ book, id }) => ofSupplies(`mix ${id}`, suppliesBy(book, id)),
  recipes: ofRecipe,
  products: ({ book, id }) => {
    const lots = [...book.pieces.values()].filter(({ product }) => product === id);
    return { ...ofLots(`product ${id}`, lots.map(whole)), looksBack: false };
  },
  pieces: ({ book, id }) => {
    const lot = book.pieces.get(id);
    return lot && ofLots(`lot ${id}`, [whole(lot)]);
  },
  firings: ({ book, id }) => {
    const firing = book.firings.get(id);
    if (!firing) return undefined;
    return { ...ofLots(`firing ${id}`, [...affectedByFiring(book, firing)]), looksBack: false };
  },
  sales: (asked) => ofMoves('sale', asked),
  consigned: (asked) => ofMoves('consignment', asked),
  tests: (asked) => ofTest(asked, asked.book.tests.get(asked.id)),
};

function ofSupplies(title: string, supplies: readonly Supply[]): TraceStart {
  return { title, supplies, uses: NO_USES, looksBack: true };
}

function ofLots(title: string, lots: Iterable<readonly [string, AffectedLot]>): TraceStart {
  return { title, supplies: [], uses: NO_USES, lots: new Map(lots), looksBack: true };
}

type AffectedLot = ReturnType<typeof wholeLot>;

function whole(lot: Parameters<typeof wholeLot>[0]): readonly [string, AffectedLot] {
  return [lot.id, wholeLot(lot)];
}

function suppliesBy(book: Book, id: string): Supply[] {
  return [...suppliesOf(book).values()].flat().filter(({ by }) => by === id);
}

function usesOfPool(book: Book, pool: string): ReadonlyMap<MaterialUse, Certainty> {
  const own = usesOf(book).filter((use) => use.pool === pool);
  return new Map(own.map((use) => [use, 'recorded']));
}

/** All mixes of a recipe with all that names it; or the mixes of one version, which lots seldom name. */
function ofRecipe({ book, id, inForce: day }: StartAsked): TraceStart | undefined {
  const recipe = book.recipes.get(id);
  const mixes = suppliesOf(book).get(id) ?? [];
  if (day === undefined || !recipe)
    return { ...ofSupplies(`recipe ${id}`, mixes), uses: usesOfPool(book, id), looksBack: false };
  const version = versionOn(recipe, day);
  if (version === undefined) return undefined;
  const own = mixes.filter((mix) => versionOn(recipe, mix.day) === version);
  const title = `recipe ${id} as of ${version.from}`;
  return { ...ofSupplies(title, own), looksBack: false };
}

/** A lot, a mix, a recipe's version or a firing that was tested. */
function ofTest(asked: StartAsked, test: Test | undefined): TraceStart | undefined {
  const { lot, mix, recipe, firing, date } = test ?? {};
  const id = lot ?? mix ?? recipe ?? firing;
  if (id === undefined) return undefined;
  const found = originOf({ ...asked, id, inForce: recipe === id ? date : undefined });
  return 'title' in found ? { ...found, title: `${found.title}, by test ${asked.id}` } : undefined;
}

/** The lots that what was sold or sent may be of. */
function ofMoves(noun: string, { book, flows, id }: StartAsked): TraceStart {
  const own = whereabouts(book, flows, productsIn(book, id)).moves.filter(
    ({ move }) => move.id === id,
  );
  const lots = own.flatMap(({ of, move }) =>
    of.flatMap(({ lot: name }): (readonly [string, AffectedLot])[] => {
      const lot = book.pieces.get(name);
      return lot ? [[name, move.lot === undefined ? anyOfLot(lot) : wholeLot(lot)]] : [];
    }),
  );
  return { ...ofLots(`${noun} ${id}`, lots), only: id };
}

function productsIn(book: Book, id: string): ReadonlySet<string> {
  const { lines: sold = [] } = book.sales.get(id) ?? {};
  const { sent = [], back = [], missing = [] } = book.consigned.get(id) ?? {};
  const lines: readonly { readonly product?: string }[] = [...sold, ...sent, ...back, ...missing];
  return new Set(lines.flatMap(({ product }) => product ?? []));
}

/** A bag by the number on it. */
function ofBag(book: Book, number: string): TraceStart | undefined {
  const bags = [...suppliesOf(book).values()]
    .flat()
    .filter(({ kind, names }) => kind === 'bag' && isSame(names[0] ?? '', number));
  const isNumbered = bags.length > 0 && !book.bought.has(number);
  return isNumbered ? ofSupplies(`bag ${bags[0]?.names[0] ?? number}`, bags) : undefined;
}

/** Lots by the mark on their pieces. */
function ofMark(book: Book, mark: string): TraceStart | undefined {
  const lots = [...book.pieces.values()].filter((lot) => isSame(lot.mark ?? '', mark));
  return lots.length === 0 ? undefined : ofLots(`mark ${lots[0]?.mark ?? mark}`, lots.map(whole));
}

/** Marks and numbers are read off a foot or a bag, in whatever case. */
function isSame(one: string, other: string): boolean {
  return one.trim().toLowerCase() === other.trim().toLowerCase();
}
