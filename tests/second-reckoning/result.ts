/** What the second reckoning hands back. */
import type { Day } from '../../src/book.ts';
import type { Grade } from '../../src/definitions.ts';
import type { Unit } from '../../src/number/unit.ts';
import type { Cost } from './costs.ts';
import type { LineMoney, SaleMoney } from './sale-money.ts';
import type { Fraction } from './fraction.ts';

/** Why a record moved a pool; `settled` is what filling a gap left for the stocktakes. */
export type Reason =
  | 'bought'
  | 'reclaimed'
  | 'mixed-in'
  | 'mixed'
  | 'clay'
  | 'glaze'
  | 'supplies'
  | 'fuel'
  | 'packing'
  | 'used'
  | 'counted'
  | 'opening'
  | 'settled';

/** One step of a pool: into it above zero, out of it below. */
export interface Movement {
  readonly day: Day;
  readonly record: string;
  readonly reason: Reason;
  /** In the pool's unit. */
  readonly quantity: Fraction;
  readonly value: bigint;
}

export interface PoolResult {
  /** The material's stock unit; g for a recipe. */
  readonly unit: Unit;
  readonly quantity: Fraction;
  readonly value: bigint;
  readonly movements: readonly Movement[];
}

/** A load line's shares of its firing, and the glaze that its pieces were given. */
export interface LineShares {
  readonly energy: bigint;
  readonly fuel: bigint;
  readonly wear: bigint;
  readonly supplies: bigint;
  readonly labour: bigint;
  readonly glaze: bigint;
}

export interface FiringResult {
  readonly energy: bigint;
  readonly energyKnown: boolean;
  /** By rated power, hours and duty. */
  readonly energyEstimated: boolean;
  readonly fuel: bigint;
  readonly wear: bigint;
  readonly supplies: bigint;
  /** Tending. */
  readonly labour: bigint;
  /** In the load's order; a line that was passed over has zeros. */
  readonly lines: readonly LineShares[];
}

export interface PileResult {
  readonly count: number;
  readonly cost: Cost;
}

/** What one grade in one place holds of a lot's finished pile, by rule 10. */
export interface Holding extends PileResult {
  readonly grade: Grade;
  /** Empty for the studio. */
  readonly place: string;
}

export interface LotResult {
  readonly product: string;
  /** Clay and labour of the making. */
  readonly making: Cost;
  /** Unfinished pieces by stage, greenware first. */
  readonly stages: readonly PileResult[];
  /** In firings that aren't unloaded. */
  readonly inKilns: readonly (PileResult & { readonly firing: string })[];
  readonly finished: PileResult;
  readonly holdings: readonly Holding[];
}

export type Account = 'sold' | 'lost' | 'given' | 'kept' | 'others' | 'used' | 'differences';

/** A cost that left the stock and the ware; below zero where it came back or was found. */
export interface Went {
  readonly account: Account;
  readonly day: Day;
  readonly record: string;
  /** Lot, material, class, whose ware, or what it was used for. */
  readonly what: string;
  readonly cost: Cost;
}

export interface SaleLineResult extends LineMoney {
  /** Of what left the piles or came back to them, and of packing. */
  readonly cost: Cost;
  /** Of what was sold beyond what was finished: outside the flow. */
  readonly beyond: Cost;
  readonly estimated: boolean;
  /** Class fee: what each day earns, or gives back. */
  readonly meetings: readonly MeetingPart[];
}

export interface MeetingPart {
  readonly day: Day;
  readonly gross: bigint;
  readonly discount: bigint;
}

export interface SaleResult extends SaleMoney {
  readonly lines: readonly SaleLineResult[];
}

/** More was drawn than there was. */
export interface Shortfall {
  /** A material, recipe, lot or product. */
  readonly of: string;
  readonly record: string;
}

/** What a gallery owes for a missing line: since when, and when it paid. */
export interface Owed {
  readonly since: Day;
  readonly amount: bigint;
  readonly paid: Day | undefined;
}

export interface LandedLine {
  readonly freight: bigint;
  readonly tax: bigint;
  readonly discount: bigint;
  readonly landed: bigint;
}

/** Everything by id of its record. */
export interface SecondReckoning {
  readonly pools: ReadonlyMap<string, PoolResult>;
  readonly landed: ReadonlyMap<string, readonly LandedLine[]>;
  readonly firings: ReadonlyMap<string, FiringResult>;
  readonly lots: ReadonlyMap<string, LotResult>;
  readonly went: readonly Went[];
  readonly sales: ReadonlyMap<string, SaleResult>;
  /** Deliveries with something missing: what is owed, line by line. */
  readonly owed: ReadonlyMap<string, readonly Owed[]>;
  readonly shortfalls: readonly Shortfall[];
}
