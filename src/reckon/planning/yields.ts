/** How much comes through each step of the work, by what the loads of the last two years did. */
import type { Book, FiringKind } from '../../book.ts';
import { addDays } from '../../number/date.ts';
import {
  ALL_GOOD,
  correlationIn,
  meanShare,
  shareOfNext,
  type UncertainShare,
} from '../../number/beta-binomial.ts';
import type { Sample } from '../../number/statistics.ts';
import { cached } from '../../once.ts';
import { leftIn } from '../costs/cost.ts';
import type { Flows } from '../flows.ts';
import { isFirstFiring, lossFacts, type LossFact, type LossStage } from '../kilns/losses.ts';
import { firingsOf } from '../ware/stages.ts';
import { lotsStanding } from '../ware/ware.ts';

/** Whose loads a share goes by: the product's, those of the same step, all; `nothing` is on record. */
export type YieldFrom = 'product' | 'step' | 'studio' | 'nothing';

/** What comes through a step. */
export interface StepYield {
  readonly share: UncertainShare;
  readonly from: YieldFrom;
}

/** What comes through a step of a product's making. */
export type Yields = (product: string, step: LossStage) => StepYield;

/** Pieces of one product in one firing, or in one lot's making. */
interface Load extends Sample {
  readonly step: LossStage;
  readonly product: string;
}

/** Days that plans look back over. */
export const DAYS_BACK = 730;

const FEWEST_LOADS = 5;
const FEWEST_PIECES = 40;

/**
 * By the studio's own ware of the last two years. Good is what goes on: after the last firing firsts
 * alone, before it seconds too. With fewer than 5 loads or 40 pieces of the product the rate is that of the
 * step, then of all; how alike the pieces of a load fare is always theirs.
 */
export function yieldsOf(book: Book, flows: Flows): Yields {
  const loads = loadsOf(book, flows);
  const alikeIn = cached((step: LossStage) => correlationIn(widest(loads, step)));
  const byKey = cached((key: string): StepYield => {
    const [product, step] = key.split('\n') as [string, LossStage];
    const found = candidates(loads, product, step).find(({ loads: some }) => isEnough(some));
    const { loads: some, from } = found ?? { loads: widest(loads, step), from: 'studio' };
    if (some.length === 0) return { share: ALL_GOOD, from: 'nothing' };
    return { share: shareOfNext(some, alikeIn(step)), from };
  });
  return (product, step) => byKey(`${product}\n${step}`);
}

/** The step of a firing of a kind. */
export function firingStep(kind: FiringKind, isRefire = false): LossStage {
  return isRefire ? `${kind} refire` : kind;
}

/** Of all that a product is started with, how much comes through on average, as a fraction of 1. */
export function meanYield(yields: Yields, product: string, fired: readonly FiringKind[]): number {
  const steps: readonly LossStage[] = ['making', ...fired];
  return steps.reduce((all, step) => all * meanShare(yields(product, step).share), 1);
}

function candidates(
  loads: readonly Load[],
  product: string,
  step: LossStage,
): { readonly loads: readonly Load[]; readonly from: YieldFrom }[] {
  const ofStep = loads.filter((load) => load.step === step);
  return [
    { loads: ofStep.filter((load) => load.product === product), from: 'product' },
    { loads: ofStep, from: 'step' },
  ];
}

function isEnough(loads: readonly Load[]): boolean {
  const pieces = loads.reduce((sum, { of }) => sum + of, 0);
  return loads.length >= FEWEST_LOADS && pieces >= FEWEST_PIECES;
}

/** The step's own loads where there are enough, else those of all steps of its sort. */
function widest(loads: readonly Load[], step: LossStage): readonly Load[] {
  const ofStep = loads.filter((load) => load.step === step);
  return isEnough(ofStep)
    ? ofStep
    : loads.filter((load) => sortOfStep(load.step) === sortOfStep(step));
}

function sortOfStep(step: LossStage): 'making' | 'firing' | 'refire' {
  if (step === 'making') return 'making';
  return isFirstFiring(step) ? 'firing' : 'refire';
}

function loadsOf(book: Book, { stock: { asOf }, ware }: Flows): readonly Load[] {
  const wet = new Set<string>();
  for (const { lot, stages } of lotsStanding(ware.lots))
    if (stages[0] && leftIn(stages[0]) > 0) wet.add(lot.id);
  const loads = new Map<string, Load>();
  for (const fact of lossFacts(book, { from: addDays(asOf, -DAYS_BACK), to: asOf }, asOf)) {
    const { stage: step, lot, firing } = fact;
    // Of greenware nobody knows yet what comes through.
    if (!lot || (step === 'making' && wet.has(lot.id))) continue;
    const key = [step, firing?.id ?? lot.id, lot.product].join('\n');
    const { hits, of } = loads.get(key) ?? { hits: 0, of: 0 };
    const all = { hits: hits + goodIn(fact), of: of + fact.in };
    loads.set(key, { step, product: lot.product, ...all });
  }
  return [...loads.values()].filter(({ hits, of }) => of > 0 && hits <= of);
}

function goodIn({ stage, firing, product, first, second }: LossFact): number {
  const isLast = stage !== 'making' && firingsOf(product).at(-1) === firing?.kind;
  return isLast ? first : first + second;
}
