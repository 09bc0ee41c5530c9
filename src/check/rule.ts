/** The shape of a rule: a name, a severity, and looks at the book that each declare their reach. */
import type { Records } from '../among.ts';
import type { Day, Kind, Named, NamedBook, RecordOf, Studio } from '../book.ts';
import type { Mistyped, Severity } from '../problem.ts';
import type { Shortfall } from '../reckon/stock/stock.ts';
import type { GatherScene, Yardstick } from './doubts/figure.ts';
import type { RuleFinding, Say } from './finding.ts';

/**
 * What the book leaves out because it could not be read or typed: rules say nothing that such a
 * record may well put right.
 */
export interface Unsound {
  /** Id → kind of the records that have faults of their own. */
  readonly ids: ReadonlyMap<string, Kind>;
  /** Every text in those records, the ids that they name among them. */
  readonly texts: ReadonlySet<string>;
  /** Kinds of which a whole file could not be read; `studio` where a setting has a fault. */
  readonly kinds: ReadonlySet<Kind | 'studio'>;
}

/** A book that leaves nothing out. */
export const NOTHING_UNSOUND: Unsound = { ids: new Map(), texts: new Set(), kinds: new Set() };

export interface Rule {
  /** Name in kebab-case, the same as the file and the fixture folder. */
  readonly name: string;
  readonly severity: Severity;
  /** One sentence for the docs: what is wrong when this rule speaks. */
  readonly about: string;
  /** Whether what it finds may well make the book run short of what the record names. */
  readonly unsettles?: true;
  /** Whether it only asks about a figure that may well be right: no count of what is wrong has it. */
  readonly isDoubt?: true;
  /** Each with its own reach: what they find is told in their order. */
  readonly looks: readonly RuleLook[];
}

/** One look at the book. How far it reaches says which changes of the book can give it something new. */
export type RuleLook = EachLook | FileLook | OverLook | ShortLook | DayLook | UsualLook;

/** A kind of record that can be looked at one by one; the settings are the one record of theirs. */
export type LookedAt = Kind | 'studio';

type RecordFor<K extends LookedAt> = K extends Kind ? RecordOf[K] : Studio;

/** Looks at one record among the settings and what it asks for by id. */
export interface EachLook {
  readonly reach: 'each';
  readonly of: readonly LookedAt[];
  readonly find: (record: never, scene: EachScene, kind: never) => void;
}

/** What a look at one record goes by. What was found rests on the ids that it asked for. */
export interface EachScene {
  readonly book: NamedBook;
  readonly say: Say;
  /** Asked only where something seems wrong: the answer rests on more than the records asked for. */
  readonly unsound: Unsound;
  /** The id among all of some kinds that a mistyped one most likely means: rests on all ids, too. */
  readonly meant: (mistyped: Mistyped) => Meant;
}

/** What an id that is nowhere may mean. */
export interface Meant {
  /** The id that is near enough, or has that name. */
  readonly near: string | undefined;
  /** One that there is. */
  readonly one: string | undefined;
}

/**
 * Which records of a kind a look goes through: all; those that have a key as it is written in the file,
 * anywhere in them; those that have a day after the day of the check; or all, of which only some concern
 * it: no other can change what it finds.
 */
export type PartOfKind<T> =
  | 'all'
  | { readonly having: string }
  | { readonly later: true }
  | { readonly where: (record: T, book: NamedBook) => boolean };

/** The kinds that a look goes through, and which part of each; of the others it can only ask by id. */
export type Reached = { readonly [K in Kind]?: PartOfKind<RecordOf[K]> };

/** A part of the records of a kind; what is given may be too much, never too little. */
export interface Walked<T> extends Named<T> {
  readonly values: () => Iterable<T>;
}

/** The book as a look has it that declares how far it reaches. */
export type ReachedBook<R extends Reached> = { readonly studio: Studio } & {
  readonly [K in Kind]: K extends keyof R ? WalkedPart<RecordOf[K], R[K]> : Named<RecordOf[K]>;
};

type WalkedPart<T, P> = P extends { readonly having: string } | { readonly later: true }
  ? Walked<T>
  : Records<T>;

/** Goes through some kinds of record: a change of any other kind can't give it anything new. */
export interface OverLook {
  readonly reach: 'over';
  readonly over: Reached;
  readonly find: (book: never, unsound: Unsound) => readonly RuleFinding[];
}

/** A shortage of a named lot that was finished only later. */
export interface TooEarly {
  readonly shortfall: Shortfall;
  readonly lot: string;
  readonly finishedOn: Day;
}

/** What is short up to a day: in the order in which the book runs out. */
export interface Short {
  /** The shortfalls of some kinds, without those that an unsound record may well put right. */
  readonly of: (...kinds: readonly Shortfall['kind'][]) => readonly Shortfall[];
  /** Named lots that were sold, sent away or gone before any of their pieces were finished. */
  readonly early: readonly TooEarly[];
  /** What followed for a lot from its being fired out of turn. */
  readonly after: (shortfall: Shortfall) => readonly Shortfall[];
}

/** Looks at nothing but what the reckoning found short. */
export interface ShortLook {
  readonly reach: 'short';
  readonly find: (short: Short, book: NamedBook) => readonly RuleFinding[];
}

/** Finds what the passing of time brings, besides what changes in some kinds of record. */
export interface DayLook {
  readonly reach: 'day';
  readonly over: Reached;
  readonly find: (book: never, scene: DayScene) => readonly RuleFinding[];
}

/** Looks at the records of one file together, in their order, and at nothing else. */
export interface FileLook {
  readonly reach: 'file';
  readonly of: readonly Kind[];
  readonly find: (records: never, say: Say) => void;
}

/** Gathers a figure of each record of some kinds, and holds it against those that are alike. */
export interface UsualLook extends UsualWording {
  readonly reach: 'usual';
  readonly of: readonly Kind[];
  readonly gather: (record: never, scene: GatherScene, kind: never) => void;
}

/** How a figure is measured, and what is said where it is far from the others. */
interface UsualWording {
  readonly measure: Yardstick;
  /** What comes before the figure: `a price of`. */
  readonly what: string;
  /** The word between the figure and what it is of; absent means `for`. */
  readonly joint?: string;
  /** What it is so many times of, where that is not the usual. */
  readonly than?: string;
}

/** The day of the check, and what the book leaves out. */
interface DayScene {
  readonly day: Day;
  readonly unsound: Unsound;
}

/** A look at each record of some kinds. */
export function each<const K extends LookedAt>(
  of: K | readonly K[],
  find: (record: RecordFor<K>, scene: EachScene, kind: K) => void,
): EachLook {
  return { reach: 'each', of: typeof of === 'string' ? [of] : of, find };
}

/** A look at the records of each file of some kinds. */
export function inFile<const K extends Kind>(
  of: readonly K[],
  find: (records: readonly RecordOf[K][], say: Say) => void,
): FileLook {
  return { reach: 'file', of, find };
}

/** A look over some kinds of record. */
export function over<const R extends Reached>(
  reached: R,
  find: (book: ReachedBook<R>, unsound: Unsound) => readonly RuleFinding[],
): OverLook {
  return { reach: 'over', over: reached, find };
}

/** A look at what is short. */
export function short(find: ShortLook['find']): ShortLook {
  return { reach: 'short', find };
}

/** A look that depends on the day of the check. */
export function onDay<const R extends Reached>(
  reached: R,
  find: (book: ReachedBook<R>, scene: DayScene) => readonly RuleFinding[],
): DayLook {
  return { reach: 'day', over: reached, find };
}

/** A look at what is usual. */
export function usual<const K extends Kind>(
  of: K | readonly K[],
  wording: UsualWording,
  gather: (record: RecordOf[K], scene: GatherScene, kind: K) => void,
): UsualLook {
  return { reach: 'usual', of: typeof of === 'string' ? [of] : of, ...wording, gather };
}
