/** What one good piece costs: what each step of its way takes, and what the lost ones add to it. */
import {
  ONE,
  ZERO,
  decimal,
  divide,
  portion,
  roundTo,
  sum,
  type Decimal,
} from '../../number/decimal.ts';

/** What the cost of a piece is made of, in the order of its way; fuel from stock is energy too. */
export const PIECE_PARTS = [
  'clay',
  'glaze',
  'energy',
  'wear',
  'supplies',
  'packing',
  'labour',
  'overhead',
] as const;

export type PiecePart = (typeof PIECE_PARTS)[number];

/** Money by part; what isn't there is zero. */
export type PartCosts = Readonly<Partial<Record<PiecePart, Decimal>>>;

/** One step of the pieces' way, the making or a firing, over all the pieces that went through it. */
export interface Step {
  /** Pieces that went in, and how many of them were lost there: counts, or their like when a tenth is added. */
  readonly in: Decimal;
  readonly lost: Decimal;
  /** What the step took for all of them together. */
  readonly costs: PartCosts;
  /** Minutes of work on all of them; undefined where they aren't known. */
  readonly minutes: Decimal | undefined;
}

/** The cost of one good piece, ratios of what was booked; parts and uplift make up the total. */
export interface PieceCost {
  /** Per piece that went into each step. */
  readonly parts: Readonly<Record<PiecePart, Decimal>>;
  /** What the lost pieces took, shared by the good ones; zero without losses. */
  readonly uplift: Decimal;
  readonly total: Decimal;
  /** The labour in the total, that on the lost pieces too. */
  readonly labour: Decimal;
  /** Minutes of work behind one good piece, those on the lost ones too; undefined where they aren't known. */
  readonly minutes: Decimal | undefined;
}

/**
 * Cost of one piece that comes out good. A piece bears each step's cost ÷ the pieces that went in;
 * the good ones bear it × in ÷ (in − lost) of that step and of every later one, which is what is left
 * when losses are borne by the survivors. Packing comes last and nothing of it is lost. The total is
 * rounded half up to 12 decimals, as is each part: so a cost of 17.35 is not a trace above it for the
 * divisions on its way. Undefined where a step lets
 * nothing through.
 */
export function costOfPiece(steps: readonly Step[], packing: Decimal): PieceCost | undefined {
  const shares = goodShares(steps);
  if (!shares) return undefined;
  const each = PIECE_PARTS.map((part) => sum(shares.map((share) => eachOf(share, part))));
  const lost = sum(shares.flatMap((share) => PIECE_PARTS.map((part) => upliftOf(share, part))));
  const packed = each.map((cost, at) =>
    PIECE_PARTS[at] === 'packing' ? cost.plus(packing) : cost,
  );
  const kept = (amount: Decimal): Decimal => roundTo(amount, KEPT_PLACES);
  const parts = Object.fromEntries(PIECE_PARTS.map((part, at) => [part, kept(packed[at] ?? ZERO)]));
  return {
    parts: parts as Record<PiecePart, Decimal>,
    uplift: kept(lost),
    total: kept(sum([...packed, lost])),
    labour: kept(sum(shares.map((share) => borneOf(share, 'labour')))),
    minutes: minutesBehind(shares),
  };
}

/**
 * Minutes of work behind one piece that comes out good, those on the lost ones too; undefined where
 * they aren't known or a step lets nothing through.
 */
export function minutesOfPiece(steps: readonly Step[]): Decimal | undefined {
  const shares = goodShares(steps);
  return shares && minutesBehind(shares);
}

/** The same steps with every loss greater by a tenth: 5 of 100 lost become 5.5. */
export function withMoreLosses(steps: readonly Step[]): Step[] {
  return steps.map((step) => ({ ...step, lost: step.lost.times(TENTH_MORE) }));
}

/** The same steps with one part dearer by a tenth. */
export function withDearer(steps: readonly Step[], part: PiecePart): Step[] {
  return steps.map((step) => {
    const cost = step.costs[part];
    if (!cost) return step;
    return { ...step, costs: { ...step.costs, [part]: cost.times(TENTH_MORE) } };
  });
}

const KEPT_PLACES = 12;
const TENTH_MORE = decimal('1.1');

/** A step with the pieces in and out of it and of all later ones, multiplied up. */
interface GoodShare {
  readonly step: Step;
  readonly in: Decimal;
  readonly out: Decimal;
}

function goodShares(steps: readonly Step[]): GoodShare[] | undefined {
  let [wentIn, cameOut] = [ONE, ONE];
  const shares: GoodShare[] = [];
  for (const step of steps.toReversed()) {
    const out = step.in.minus(step.lost);
    if (out.lte(ZERO)) return undefined;
    // What loses nothing is left out, so that the products stay short.
    if (!step.lost.isZero()) [wentIn, cameOut] = [wentIn.times(step.in), cameOut.times(out)];
    shares.push({ step, in: wentIn, out: cameOut });
  }
  return shares.reverse();
}

function eachOf({ step }: GoodShare, part: PiecePart): Decimal {
  const cost = step.costs[part];
  return cost ? divide(cost, step.in) : ZERO;
}

/** What a good piece bears of a step. */
function borneOf(share: GoodShare, part: PiecePart): Decimal {
  return portion(eachOf(share, part), share.in, share.out);
}

/** The same beyond what one piece takes. */
function upliftOf(share: GoodShare, part: PiecePart): Decimal {
  return borneOf(share, part).minus(eachOf(share, part));
}

function minutesBehind(shares: readonly GoodShare[]): Decimal | undefined {
  let all = ZERO;
  for (const { step, in: wentIn, out } of shares) {
    if (!step.minutes) return undefined;
    all = all.plus(portion(divide(step.minutes, step.in), wentIn, out));
  }
  return roundTo(all, KEPT_PLACES);
}
