/** `saggar plan`: what to start, load and order, so that all that is wanted is there in time. */
import type { Book, Day } from '../../book.ts';
import { dayMeant, isDay } from '../../number/date.ts';
import { flow } from '../../reckon/flow.ts';
import type { Demand } from '../../reckon/planning/demands.ts';
import type { WareGoal } from '../../reckon/planning/goals.ts';
import { planOf, USUAL_ASSURANCE, type WorkPlan } from '../../reckon/planning/plan.ts';
import { planStrip } from '../../report/making/plan-strip.ts';
import { planTable, type PlanShown } from '../../report/making/plan.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import type { OpenedBook } from '../studio/open.ts';
import { isRefusal, type Asked, type Refusal } from '../world.ts';
import type { Report } from './show.ts';
import { notADay } from './span.ts';

type PlanOptions = Partial<OptionsOf<'plan'>>;

/** The plan for all that is wanted, for some orders and fairs, or for pieces that are asked for. */
export const plan: Report<OptionsOf<'plan'>> = {
  table: (opened, asked) => {
    const made = planFor(opened, asked);
    return isRefusal(made) ? made : planTable(opened.book, made.planned, made.shown);
  },
  charts: (opened, asked) => {
    const made = planFor(opened, asked);
    return isRefusal(made) ? [] : planStrip(opened.book, made.planned);
  },
};

interface PlanMade {
  readonly planned: WorkPlan;
  readonly shown: PlanShown;
}

function planFor({ book, asOf }: OpenedBook, asked: Asked<PlanOptions>): PlanMade | Refusal {
  const wanted = assuranceOf(asked.options);
  if (isRefusal(wanted)) return wanted;
  const until = untilOf(asked.options, asOf);
  if (isRefusal(until)) return until;
  const made = askedFor(book, asked.options, until.day);
  if (isRefusal(made)) return made;
  const named = ordersNamed(book, asked);
  if (isRefusal(named)) return named;
  const { assurance } = wanted;
  const planned = planOf(book, flow(book, asOf), { assurance, until: until.day, asked: made });
  const meant = [...named, ...(asked.options.make === undefined ? [] : [asked.options.make])];
  const isMeant = meaning(named, made.length > 0);
  return { planned, shown: { assurance, isMeant, meant: meant.join(', ') || undefined } };
}

function assuranceOf({ assurance: text }: PlanOptions): { assurance: number } | Refusal {
  const percent = text === undefined ? USUAL_ASSURANCE * 100 : Number(text.replace(/%$/, ''));
  if (percent >= 50 && percent <= 99.9) return { assurance: percent / 100 };
  return {
    refused: `--assurance takes a percentage from 50 to 99.9, such as 90, and not "${text ?? ''}"`,
  };
}

function untilOf({ until }: PlanOptions, asOf: Day): { day: Day | undefined } | Refusal {
  if (until === undefined) return { day: undefined };
  const day = isDay(until) ? until : dayMeant(until, asOf);
  if (day === undefined) return notADay('--until', until);
  return day < asOf
    ? { refused: `--until ${day} is before ${asOf}, the day of the plan` }
    : { day };
}

const PIECES = /^(\d{1,5})x? +(\S+)(?: +(\S+))?$/;

function askedFor(book: Book, { make }: PlanOptions, due: Day | undefined): Demand[] | Refusal {
  if (make === undefined) return [];
  const [, count = '0', product = '', glaze] = PIECES.exec(make.trim()) ?? [];
  if (Number(count) === 0)
    return {
      refused: `--make takes a count, a product and a glaze, such as "20 mug oatmeal", and not "${make}"`,
    };
  if (!book.products.has(product)) return unknownId('product', product, book.products.values());
  if (glaze !== undefined && !book.recipes.has(glaze))
    return unknownId('recipe', glaze, book.recipes.values());
  const grade = 'first';
  return [{ source: 'asked', by: '', product, glaze, grade, count: Number(count), due }];
}

/** The orders and fairs that are named. */
function ordersNamed(book: Book, { words }: Asked<PlanOptions>): string[] | Refusal {
  const unknown = words.find((id) => !book.orders.has(id) && !book.fairs.has(id));
  if (unknown === undefined) return [...words];
  return unknownId('order or fair', unknown, [...book.orders.values(), ...book.fairs.values()]);
}

/** Everything where nothing is named or asked for. */
function meaning(named: readonly string[], isAsked: boolean): (goal: WareGoal) => boolean {
  if (named.length === 0 && !isAsked) return () => true;
  return ({ demands }) =>
    demands.some(({ source, by }) => (isAsked && source === 'asked') || named.includes(by));
}
