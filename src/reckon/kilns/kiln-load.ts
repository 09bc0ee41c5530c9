/** Lots going through the kiln: pieces and their cost move on a stage, losses are borne by the survivors. */
import type { Firing, FiringKind, LoadLine } from '../../book.ts';
import { NO_MONEY, type Money } from '../../number/money.ts';
import { NO_COST, addCosts, joined, takeFrom, type Cost } from '../costs/cost.ts';
import { finish, takeForRefire } from '../ware/finished.ts';
import { countAt, firstStanding, historyOf, type KilnPile, type LotState } from '../ware/lot.ts';
import type { FiringCost } from './firing-cost.ts';
import type { FiringDraws } from './firing-draws.ts';
import { GLAZING, type StageHistory } from '../ware/stages.ts';
import { outOn, outcomeBy, outcomeOf } from './out-of-kiln.ts';
import { noteShort, noteWare, noteWorked, type Ware } from '../ware/ware.ts';

/** One load line of a firing with what it bears of the firing's cost, and its glaze. */
interface Loaded {
  readonly firing: Firing;
  readonly index: number;
  readonly line: LoadLine;
  /** Empty where no money is reckoned. */
  readonly share: Cost;
  readonly glaze: Money;
}

/** Where the pieces of a load line come from and where the good ones go. */
interface Passage {
  readonly from: number;
  readonly to: number;
  readonly inTurn: boolean;
}

/** Passes one load line through its firing. A class's or customer's line only bears its share. */
function fireLine(ware: Ware, loaded: Loaded): void {
  const { firing, line } = loaded;
  const state = line.lot === undefined ? undefined : ware.lots.get(line.lot);
  const added: Cost =
    loaded.glaze === NO_MONEY ? loaded.share : { ...loaded.share, glaze: loaded.glaze };
  noteFired(ware, loaded, { state, added });
  if (!state) return;
  const passage = passageOf(state, loaded);
  ware.touched.add(state);
  if (!passage.inTurn) reportOutOfTurn(ware, state, loaded);
  const cost = addCosts(takeFromStage(ware, state, { loaded, passage }), added);
  const { from, to } = passage;
  const pile = { firing: firing.id, from, to, line, added, count: line.in, cost };
  if (outcomeBy(firing.date, firing, line)) comeOut(ware, state, { firing, pile });
  else state.inKiln.push(pile);
}

/** Takes what a firing of an earlier day has in the kiln out of it. */
export function unloadKiln(ware: Ware, firing: Firing): void {
  for (const line of firing.load) {
    const state = ware.lots.get(line.lot ?? '');
    const pile = state?.inKiln.find((each) => each.firing === firing.id && each.line === line);
    if (!state || !pile || !outcomeOf(line)) continue;
    ware.touched.add(state);
    state.inKiln.splice(state.inKiln.indexOf(pile), 1);
    comeOut(ware, state, { firing, pile });
  }
}

function noteFired(
  ware: Ware,
  { firing, line }: Loaded,
  { state, added }: { state: LotState | undefined; added: Cost },
): void {
  noteWare(ware, {
    day: firing.date,
    reason: state ? 'fired' : 'others',
    by: firing.id,
    lot: state?.lot.id ?? '',
    count: line.in,
    cost: added,
  });
}

/**
 * A first firing of that kind takes the pieces of the stage before it; a refire takes them from the
 * stage behind it and puts them back there; a kind outside the product's sequence (a test) leaves them
 * where they were.
 */
function passageOf(state: LotState, { firing, line }: Loaded): Passage {
  const { fired } = state;
  const stagesBefore = fired.flatMap((kind, stage) => (kind === firing.kind ? [stage] : []));
  if (line.refire === 'yes') return refirePassage(state, stagesBefore);
  const filled = (stage: number): number => countAt(state, stage);
  const inTurn =
    stagesBefore.find((stage) => filled(stage) >= line.in) ??
    stagesBefore.find((stage) => filled(stage) > 0);
  if (inTurn !== undefined) return { from: inTurn, to: inTurn + 1, inTurn: true };
  const standing = firstStanding(state);
  const wanted = stagesBefore[0];
  if (standing === undefined) return { from: wanted ?? 0, to: (wanted ?? 0) + 1, inTurn: true };
  if (wanted === undefined && mayFinish(state, firing.kind))
    return { from: standing, to: fired.length, inTurn: true };
  if (wanted === undefined) return { from: standing, to: standing, inTurn: firing.kind === 'test' };
  return { from: standing, to: Math.max(wanted + 1, standing), inTurn: false };
}

/** Where the book lacks the product, what a glaze is on is finished: a stocktake must not find it again. */
function mayFinish({ product }: LotState, kind: FiringKind): boolean {
  return !product && kind !== 'test' && GLAZING.includes(kind);
}

function refirePassage(state: LotState, stagesBefore: readonly number[]): Passage {
  const behind = stagesBefore.map((stage) => stage + 1);
  const stage =
    behind.findLast((each) => countAt(state, each) > 0) ?? behind.at(-1) ?? state.fired.length;
  return { from: stage, to: stage, inTurn: behind.length > 0 };
}

function takeFromStage(
  ware: Ware,
  state: LotState,
  { loaded, passage }: { loaded: Loaded; passage: Passage },
): Cost {
  const { firing, line } = loaded;
  if (countAt(state, passage.from) < line.in) reportOverdrawn(ware, state, { loaded, passage });
  const batch = state.stages[passage.from];
  const cost = batch ? takeFrom(batch, line.in).cost : takeForRefire(ware, state, line.in);
  const { kind, date: day } = firing;
  state.steps.push({ stage: passage.from, change: -line.in, by: 'loaded', day, kind });
  return cost;
}

/** Pieces on their way out of a firing. */
interface ComingOut {
  readonly firing: Firing;
  readonly pile: KilnPile;
}

function comeOut(ware: Ware, state: LotState, { firing, pile }: ComingOut): void {
  const { from, to, line, added, cost } = pile;
  const outcome = outcomeOf(line);
  if (!outcome) return;
  const day = outOn(firing);
  noteWorked(ware, state);
  state.passes.push({ firing, line, from, to, added });
  const good = outcome.first + outcome.second;
  if (good === 0) {
    const [by, lot] = [firing.id, state.lot.id];
    noteWare(ware, { day, reason: 'lost', by, lot, count: line.in, cost });
    return;
  }
  state.steps.push({ stage: to, change: good, by: 'out', day, kind: firing.kind });
  const batch = state.stages[to];
  if (batch) state.stages[to] = joined(batch, { count: good, cost });
  else finish(ware, state, { day, ...outcome, cost });
}

function reportOutOfTurn(ware: Ware, state: LotState, { firing, index, line }: Loaded): void {
  noteShort(ware, {
    kind: 'out-of-turn',
    day: firing.date,
    at: { file: firing.file, path: [firing.id, 'load', index, 'lot'] },
    what: state.lot.id,
    wanted: line.in,
    had: 0,
    history: historyOf(state, firstStanding(state) ?? 0),
  });
}

function reportOverdrawn(
  ware: Ware,
  state: LotState,
  { loaded, passage }: { loaded: Loaded; passage: Passage },
): void {
  const { firing, index, line } = loaded;
  const { from } = passage;
  noteShort(ware, {
    kind: 'stage',
    day: firing.date,
    at: { file: firing.file, path: [firing.id, 'load', index, 'in'] },
    what: state.lot.id,
    wanted: line.in,
    had: countAt(state, from),
    history: { ...historyOf(state, from), inKiln: yetToCome(ware, state) },
  });
}

/** What is in a kiln until a day that the book knows already. */
function yetToCome(ware: Ware, { inKiln }: LotState): StageHistory['inKiln'] {
  const pile = inKiln.find(({ line }) => outcomeOf(line));
  const firing = pile && ware.book.firings.get(pile.firing);
  return firing && { count: pile.count, until: outOn(firing) };
}

/** Passes a load through its firing; no cost where no money is reckoned. */
export function fire(
  ware: Ware,
  firing: Firing,
  { glaze, cost }: { glaze: FiringDraws['glaze']; cost: FiringCost | undefined },
): void {
  firing.load.forEach((line, index) => {
    const share = cost?.shares[index] ?? NO_COST;
    fireLine(ware, { firing, index, line, share, glaze: glaze[index] ?? NO_MONEY });
  });
  if (cost && firing.load.length === 0) noteEmpty(ware, cost);
}

/** A firing of an empty kiln bears its cost itself. */
function noteEmpty(ware: Ware, { firing, energyCost = NO_MONEY, ...others }: FiringCost): void {
  const cost: Cost = {
    energy: energyCost,
    fuel: others.fuelCost,
    wear: others.wearCost,
    supplies: others.suppliesCost,
    labour: others.labourCost,
  };
  noteWare(ware, { day: firing.date, reason: 'others', by: firing.id, lot: '', count: 0, cost });
}
