/** The one thing to do next at a day's end: of all that asks for something, what costs most if it is left. */
import type { Book, Care, Order } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import { andMore, counted, setApart } from '../../in-words.ts';
import { dayFromNumber, dayNumber, daysBetween } from '../../number/date.ts';
import { ONE } from '../../number/decimal.ts';
import { less, total } from '../../number/money.ts';
import { digitsOf } from '../../reckon/booked.ts';
import { claimsOn } from '../../reckon/claims/claims.ts';
import type { DayFigures } from '../../reckon/day.ts';
import type { WorkPlan } from '../../reckon/planning/plan.ts';
import { orderStandings } from '../../reckon/sales/orders.ts';
import type { Estimate } from '../../reckon/tax/estimated-tax.ts';
import { leftToDeliver } from '../making/order-verdicts.ts';
import { estimatesDue } from './day-ahead.ts';
import { amountText, roughly, stockLeftText } from './day-words.ts';

/** What is to be done next: why, and the command that goes with it. */
export interface NextStep {
  readonly program: 'saggar' | 'git';
  /** What stands after the program's name; of git, the message of the commit. */
  readonly words: string;
  /** A sentence with its full stop. */
  readonly why: string;
}

/** What may ask for something. */
export interface NextView {
  readonly book: Book;
  readonly figures: DayFigures;
  readonly errors: number;
  readonly uncommitted?: number | undefined;
  readonly planned?: WorkPlan | undefined;
  readonly estimates?: readonly Estimate[];
}

type NextLook = (view: NextView) => NextStep | undefined;

/** The most pressing one; undefined where nothing asks for anything. */
export function nextStep(view: NextView): NextStep | undefined {
  return firstOf(LOOKS, view) ?? commitStep(view);
}

function firstOf(looks: readonly NextLook[], view: NextView): NextStep | undefined {
  for (const look of looks) {
    const step = look(view);
    if (step) return step;
  }
  return undefined;
}

/** Git's commit of the day; undefined where everything is committed. */
export function commitStep({ figures, uncommitted = 0 }: NextView): NextStep | undefined {
  if (uncommitted === 0) return undefined;
  const files = `${counted(uncommitted, 'file')} ${uncommitted === 1 ? 'is' : 'are'} not committed`;
  return { program: 'git', words: `Day of ${figures.asOf}`, why: `Keep the day: ${files}.` };
}

function saggar(words: string, why: string): NextStep {
  return { program: 'saggar', words, why };
}

function wrongInBook({ errors }: NextView): NextStep | undefined {
  if (errors === 0) return undefined;
  const whose = errors === 1 ? 'its record is' : 'their records are';
  return saggar('check', `Fix ${counted(errors, 'error')}: ${whose} left out of every figure.`);
}

function cooledKiln({ figures: { inKiln, asOf } }: NextView): NextStep | undefined {
  const cool = inKiln.find(({ firing }) => firing.date < asOf);
  if (!cool) return undefined;
  const { firing, kilnName, count } = cool;
  const what = `${counted(count, 'piece')}, since ${firing.date}`;
  return saggar(`unload ${firing.id} --line "…"`, `Record what came out of ${kilnName}: ${what}.`);
}

function emptyBook({ figures: { isEmpty } }: NextView): NextStep | undefined {
  if (!isEmpty) return undefined;
  return saggar('add bought --help', 'Record your stock: the book is still empty.');
}

const USES: Readonly<Record<Care, string>> = {
  food: 'for food',
  oven: 'for the oven',
  microwave: 'for the microwave',
  dishwasher: 'for the dishwasher',
  ornamental: 'as ornamental',
};

function failedClaim({ book, figures: { asOf } }: NextView): NextStep | undefined {
  const failed = claimsOn(book, asOf).find(({ evidence }) => evidence.isFailed);
  if (!failed) return undefined;
  const { product, care } = failed;
  const why = `Stop selling ${product.name} ${USES[care]}: a test of it failed.`;
  return saggar(`claims ${product.id}`, why);
}

function taxDue({ book, figures: { asOf }, estimates = [] }: NextView): NextStep | undefined {
  const [first] = estimatesDue(estimates, asOf);
  if (!first) return undefined;
  const { due, to, number, asked } = first;
  const amount = amountText(less(asked.inAll, asked.before), digitsOf(book));
  const days = daysBetween(asOf, due);
  const when = days === 0 ? 'today' : `on ${due}, in ${counted(days, 'day')}`;
  const why = `Estimated tax of ${amount} is due ${when}.`;
  return saggar(`quarter ${to.slice(0, 4)}-Q${number}`, why);
}

/** The open order that is late for longest. */
function lateOrder({ book, figures: { asOf } }: NextView): NextStep | undefined {
  const [late] = orderStandings(book, asOf)
    .filter(({ order, state }) => state === 'open' && isLate(order, asOf))
    .sort((one, other) => ((one.order.due ?? '') < (other.order.due ?? '') ? -1 : 1));
  if (!late) return undefined;
  const { order } = late;
  const days = counted(daysBetween(order.due ?? asOf, asOf), 'day');
  const why = `Deliver ${counted(leftToDeliver(late), 'piece')} to ${order.buyer}: ${days} late.`;
  return saggar(`orders ${order.id}`, why);
}

function isLate({ due }: Order, asOf: string): boolean {
  return due !== undefined && due < asOf;
}

/** What an order or a fair won't have in time by the plan. */
function orderAtRisk({ book, figures: { asOf }, planned }: NextView): NextStep | undefined {
  if (!planned) return undefined;
  const { fitting, goals } = planned;
  const late = fitting.late.find(({ due }) => due >= dayNumber(asOf));
  const demands = goals.find(({ sort }) => sort === late?.sort)?.demands ?? [];
  const due = late && dayFromNumber(late.due);
  const met = demands.find((each) => each.due === due && each.by !== '');
  if (!late || !met) return undefined;
  const name = book.products.get(late.sort.product)?.name ?? late.sort.name;
  const who = book.orders.get(met.by)?.buyer ?? book.fairs.get(met.by)?.name ?? met.by;
  const why = `${late.count} ${name} for ${who} won't be ready by ${String(due)}.`;
  return saggar(`plan ${met.by}`, why);
}

function outOfStock({ figures: { toOrder } }: NextView): NextStep | undefined {
  const [first, ...more] = toOrder;
  if (!first) return undefined;
  return saggar(
    'materials',
    `Order ${first.name} today: ${stockLeftText(first)}${andMore(more.length, 'material')}.`,
  );
}

/** Longer than a bill usually has (common practice: 30 days, and as many to be reminded). */
const LONG_OWED = 60;

/** Who owes most of what has been owed for long. */
function longOwed({ book, figures: { owedByOthers, asOf } }: NextView): NextStep | undefined {
  const long = owedByOthers.filter(({ since }) => daysBetween(since, asOf) > LONG_OWED);
  const all = [...grouped(long, ({ who }) => who)].map(([who, debts]) => ({
    who,
    debts,
    sum: total(debts.map(({ amount }) => amount)),
  }));
  const [most] = all.sort((one, other) => (one.sum < other.sum ? 1 : -1));
  const [oldest] = most?.debts ?? [];
  if (!most || !oldest) return undefined;
  const amount = amountText(most.sum, digitsOf(book));
  const why = `Remind ${most.who}: ${amount} has been owed since ${oldest.since}.`;
  const { by, channel = '' } = oldest;
  const isChannel = book.channels.get(channel)?.name === most.who;
  return saggar(isChannel ? `paper owed ${channel}` : `show ${by}`, why);
}

function duePart({ figures: { partsDue } }: NextView): NextStep | undefined {
  const due = partsDue.find(({ state }) => state === 'due');
  if (!due) return undefined;
  const { kiln, part, firings } = due;
  const lasted = `${firings} of ${setApart(part.firings.toString())} firings`;
  return saggar(`kilns ${kiln.id}`, `Have the ${part.part} of ${kiln.name} seen to: ${lasted}.`);
}

function fullLoad({ figures: { kilns } }: NextView): NextStep | undefined {
  const full = kilns.find(({ share }) => !share.lt(ONE));
  if (!full) return undefined;
  const { kind, kiln, waiting, space } = full;
  const over = waiting.minus(space);
  const rest = over.isZero() ? '' : `, ${roughly(over)} left over`;
  return saggar('add firings --help', `Fire ${kiln.name}: the ${kind} load is full${rest}.`);
}

/** What makes every figure wrong, then what can hurt, then what has a day, then what only waits. */
const LOOKS: readonly NextLook[] = [
  wrongInBook,
  cooledKiln,
  emptyBook,
  failedClaim,
  taxDue,
  lateOrder,
  orderAtRisk,
  outOfStock,
  longOwed,
  duePart,
  fullLoad,
];
