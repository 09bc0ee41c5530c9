/** The words of a plan: why so many, what does not fit and what would make it fit. */
import { countIn } from '../../grouping.ts';
import type { Book, FiringKind } from '../../book.ts';
import { counted, sentences, setApart } from '../../in-words.ts';
import { dayFromNumber } from '../../number/date.ts';
import { decimal, roundTo, type Decimal } from '../../number/decimal.ts';
import { inUnit, type Measure } from '../../number/measure.ts';
import type { Unit } from '../../number/unit.ts';
import type { ThrowingSize } from '../../reckon/claims/shrinkage.ts';
import type { Bound } from '../../reckon/planning/bound.ts';
import type { Late, Remedy } from '../../reckon/planning/fitting.ts';
import type { WareGoal } from '../../reckon/planning/goals.ts';
import type { WorkPlan } from '../../reckon/planning/plan.ts';
import type { PiecesDue } from '../../reckon/planning/schedule.ts';
import { WAITS } from '../../reckon/planning/waits.ts';
import { firingStep, meanYield, type YieldFrom } from '../../reckon/planning/yields.ts';

/** A quantity in a unit, with at most two decimals: `12.5 lb`. */
export function quantityText(measure: Measure, unit: Unit): string {
  return `${setApart(roundTo(inUnit(measure, unit), 2).toFixed())} ${unit}`;
}

/** With at most one decimal. */
function figure(value: number): string {
  return roundTo(decimal(value.toFixed(6)), 1).toFixed();
}

/** Hours of so many minutes: `12.5 h`. */
export function hoursText(minutes: number): string {
  return `${figure(minutes / 60)} h`;
}

/** A share as a whole percentage. */
export function percentText(share: number): string {
  return `${Math.floor(share * 100 + ROUNDING)}%`;
}

const ROUNDING = 1e-9;

/** `25 mug oatmeal, 12 bowl`. */
export function piecesText(pieces: readonly Pick<PiecesDue, 'sort' | 'count'>[]): string {
  const counts = new Map<string, number>();
  for (const { sort, count } of pieces) counts.set(sort.name, (counts.get(sort.name) ?? 0) + count);
  return [...counts].map(([name, count]) => `${count} ${name}`).join(', ');
}

/** `20 wanted, 3 ready; of 10 that you make 9 come through; 25 give 17 or more 9 times in 10`. */
export function whyText(plan: WorkPlan, goal: WareGoal, assurance: number): string {
  const { wanted, ready, underWay, start } = goal;
  const there = sentences(
    `${wanted} wanted`,
    ready > 0 && `${ready} ready`,
    underWay > 0 && `${underWay} under way`,
  );
  if (isWithoutRecord(plan, goal))
    return `${there.join(', ')}; nothing fired yet to go by: no spares`;
  const all = underWay > 0 ? `${start.count} and what is under way` : String(start.count);
  const often = start.chance < assurance ? `only ${timesText(start.chance)}` : timesText(assurance);
  const gives = `${all} give ${wanted - ready} or more ${often}`;
  return [there.join(', '), ofTenText(plan, goal), gives].join('; ');
}

/** `wet 107 mm high, 98 mm wide`: how large to make what shrinks. */
export function wetText({ height, width }: ThrowingSize['wet']): string {
  const high = height && `${roundTo(height, 0).toFixed()} mm high`;
  const wide = width && `${roundTo(width, 0).toFixed()} mm wide`;
  return `wet ${[high, wide].filter((each) => each !== undefined).join(', ')}`;
}

/** `9 times in 10`, `95 times in 100`. */
function timesText(chance: number): string {
  const tenths = Math.round(chance * 10);
  const isTenths = Math.abs(chance * 10 - tenths) < ROUNDING;
  return isTenths ? `${tenths} times in 10` : `${Math.floor(chance * 100 + ROUNDING)} times in 100`;
}

const NEARLY_ALL = 0.95;

function ofTenText({ yields }: WorkPlan, { sort }: WareGoal): string {
  const share = meanYield(yields, sort.product, sort.fired);
  const of = share < NEARLY_ALL ? 10 : 100;
  const through = Math.round(share * of);
  return `of ${of} that you make ${through} ${through === 1 ? 'comes' : 'come'} through`;
}

function originsOf({ yields }: WorkPlan, { sort }: WareGoal): YieldFrom[] {
  const steps = ['making', ...sort.fired.map((kind) => firingStep(kind))] as const;
  return steps.map((step) => yields(sort.product, step).from);
}

function isWithoutRecord(plan: WorkPlan, goal: WareGoal): boolean {
  return originsOf(plan, goal).every((from) => from === 'nothing');
}

/** What is late first, in words. */
export function lateText({ packed, due }: Late): string {
  const when = packed === undefined ? 'not within this plan' : `ready ${dayFromNumber(packed)}`;
  return `due ${dayFromNumber(due)}, ${when}`;
}

/** Why it can't be done by any plan. */
export function boundText(bound: Bound): string {
  const due = dayFromNumber(bound.due);
  switch (bound.why) {
    case 'days':
      return `can't be done: ${bound.sort.name} started today is ready ${dayFromNumber(bound.earliest)} at the earliest`;
    case 'room':
      return `can't be done: what is due by ${due} takes ${spaceText(bound.needed)} of space in ${bound.kind} firings, and the kilns have ${spaceText(bound.room)} until then`;
    case 'no-kiln':
      return `can't be planned: no kiln with a space fires ${bound.kind} for ${bound.sort.name}`;
    case 'hours':
      return `can't be done: what is due by ${due} takes ${hoursText(bound.needed)} to make, and there are ${hoursText(bound.there)} until it has to be made`;
  }
}

/** Space of so many millionths. */
export function spaceText(millionths: number): string {
  return figure(millionths / 1e6);
}

/** What would make it fit. */
export function remedyText(remedy: Remedy): string {
  switch (remedy.how) {
    case 'loads':
      return remedy.more > 0
        ? `fits with ${counted(remedy.more, 'more firing')}, of kilns that are not full`
        : 'fits if kilns are fired before they are full';
    case 'hours':
      return 'fits with more hours of making';
    case 'loads-and-hours':
      return 'fits with more hours, and kilns fired before they are full';
    case 'fewer':
      return `fits with ${remedy.count} to start in place of ${remedy.of}`;
  }
}

/** What the plan goes by. */
export function planNotes(book: Book, plan: WorkPlan, assurance: number): string[] {
  const { goals, unplanned, hours, seconds } = plan;
  const enough = goals.filter(({ start, wanted, ready }) => start.count === 0 && wanted > ready);
  const wantedSeconds = countIn(seconds);
  return sentences(
    enough.length > 0 && `Enough under way: ${enough.map(({ sort }) => sort.name).join(', ')}.`,
    unplanned.length > 0 &&
      `Not planned, since ordered in words: ${unplanned.map(({ count, what, by }) => `${count} ${what} (${by})`).join(', ')}.`,
    wantedSeconds > 0 &&
      `${counted(wantedSeconds, 'second')} wanted: nobody makes those, so they are only met by what is ready.`,
    goals.length > 0 && yieldNote(plan, assurance),
    goals.length > 0 && waitNote(plan),
    othersNote(plan),
    hours
      ? `${figure(hours.aWeek)} hours of making a week, ${hours.from === 'settings' ? 'as studio.yaml says' : 'as in your busy weeks (hours-a-week in studio.yaml sets it)'}.`
      : goals.length > 0 &&
          'No hours: hours-a-week in studio.yaml, and minutes of products, spread the making.',
    book.kilns.size > plan.calendar.kilns.length &&
      'Kilns without a space are left out, since nobody knows what fits.',
    goals.length > 0 && 'A plan: it changes nothing in the book.',
  );
}

function yieldNote(plan: WorkPlan, assurance: number): string {
  const few = plan.goals.filter((goal) => originsOf(plan, goal).some((from) => from !== 'product'));
  const names = [...new Set(few.map(({ sort }) => sort.product))];
  const byAll =
    names.length === 0 ? '' : ` By all ware, where too few are on record: ${names.join(', ')}.`;
  return `Numbers to start: enough firsts ${timesText(assurance)}, by what your loads did in the last two years; no spares make up for a lost load.${byAll}`;
}

function waitNote({ calendar: { waits } }: WorkPlan): string {
  const all = WAITS.filter((name) => name !== 'decorating').map((name) => {
    const { days, from, slow } = waits[name];
    const why =
      from === 'settings'
        ? 'set'
        : from === 'usual'
          ? 'usual'
          : `1 in 10 took over ${slow ?? days}`;
    return `${name} ${days} (${why})`;
  });
  return `Days: ${all.join(', ')}.`;
}

function othersNote({ calendar, othersShare, fitting }: WorkPlan): string | false {
  const kinds = new Set(fitting.schedule.loads.map(({ kind }) => kind));
  const some = [...kinds].filter((kind) => !othersShare(kind).isZero());
  if (calendar.kilns.length === 0 || some.length === 0) return false;
  const shares = some.map((kind) => `${percentOf(othersShare(kind))} of ${kind} loads`);
  return `Room is left for classes and customers, as last year: ${shares.join(', ')}.`;
}

function percentOf(share: Decimal): string {
  return percentText(share.toNumber());
}

/** `bisque`, `glaze cone 6`. */
export function firingText(kind: FiringKind, cone: string | undefined): string {
  return cone === undefined ? kind : `${kind} cone ${cone}`;
}
