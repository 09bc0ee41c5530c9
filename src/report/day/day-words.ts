/** The words of a day's end: one short phrase for each thing that is to be said. */
import { listed } from '../../check/finding.ts';
import { decimal, roundTo, type Decimal } from '../../number/decimal.ts';
import { NO_MONEY, moneyText, roundedMoney, total, type Money } from '../../number/money.ts';
import { daysBetween, weekdayOf, type Weekday } from '../../number/date.ts';
import type { Day } from '../../book.ts';
import type { Debt } from '../../reckon/sales/debts.ts';
import type { Depletion } from '../../reckon/stock/depletion.ts';
import type { Recorded } from '../../reckon/day.ts';
import type { InKiln, KilnRoom, Ready, Waiting } from '../../reckon/ware/standing.ts';
import { counted, setApart } from '../../in-words.ts';

/** A day with the name of its weekday: `Sunday 2026-05-17`. */
export function weekdayText(day: Day): string {
  return `${WEEKDAYS[weekdayOf(day)]} ${day}`;
}

const WEEKDAYS: Readonly<Record<Weekday, string>> = {
  mon: 'Monday',
  tue: 'Tuesday',
  wed: 'Wednesday',
  thu: 'Thursday',
  fri: 'Friday',
  sat: 'Saturday',
  sun: 'Sunday',
};

/** Money as people read it, with the currency's decimals and thousands set apart: `1,204.50`. */
export function amountText(amount: Money, digits: number): string {
  return setApart(moneyText(amount, digits));
}

/** The same of a ratio, which is rounded here. */
export function rateText(rate: Decimal, digits: number): string {
  return amountText(roundedMoney(rate, digits), digits);
}

/** A figure with at most one decimal: `44`, `4.6`. */
export function roughly(value: Decimal): string {
  return roundTo(value, 1).toFixed();
}

/** How long ago a day was: `since today`, `for 1 day`, `for 12 days`. */
function howLong(since: Day, asOf: Day): string {
  const days = daysBetween(since, asOf);
  return days === 0 ? 'since today' : `for ${counted(days, 'day')}`;
}

/** `2 sales for 76.00`, `1 bisque firing of 50 pieces`. */
export function recordedText(recorded: Recorded, digits: number): string {
  const money = recorded.amount === undefined ? '' : ` for ${amountText(recorded.amount, digits)}`;
  const pieces = recorded.pieces === undefined ? '' : ` of ${counted(recorded.pieces, 'piece')}`;
  switch (recorded.kind) {
    case 'bought':
      return counted(recorded.count, 'purchase') + money;
    case 'reclaimed':
      return counted(recorded.count, 'reclaim');
    case 'mixed':
      return counted(recorded.count, 'mix', 'mixes');
    case 'pieces':
      return counted(recorded.count, 'lot') + pieces;
    case 'firings':
      return counted(recorded.count, `${recorded.firing ?? ''} firing`) + pieces;
    case 'used':
      return counted(recorded.count, 'use', 'uses') + ' of material';
    case 'counted':
      return counted(recorded.count, 'stocktake');
    case 'orders':
      return counted(recorded.count, 'order');
    case 'sales':
      return counted(recorded.count, 'sale') + money;
    case 'advances':
      return counted(recorded.count, 'advance') + money;
    case 'consigned':
      return counted(recorded.count, 'consignment') + pieces;
    case 'fairs':
      return counted(recorded.count, 'fair');
    case 'spent':
      return counted(recorded.count, 'expense') + money;
    case 'tests':
      return counted(recorded.count, 'test');
    case 'filed':
      return counted(recorded.count, 'filing');
    case 'lost':
      return `${counted(recorded.count, 'piece')} lost`;
    case 'gone':
      return `${counted(recorded.count, 'piece')} gone without a sale`;
    case 'paid':
      return `${amountText(recorded.amount ?? NO_MONEY, digits)} came in for ${counted(recorded.count, 'earlier sale')}`;
    case 'paid-missing':
      return `${amountText(recorded.amount ?? NO_MONEY, digits)} came in for missing pieces`;
  }
}

/** `Tumbler (20, for 12 days)`. */
export function waitingText({ name, count, since }: Waiting, asOf: Day): string {
  return `${name} (${count}, ${howLong(since, asOf)})`;
}

/** `Tumbler (20)`. */
export function briefWaitingText({ name, count }: Waiting): string {
  return `${name} (${count})`;
}

/** `Mug (40)`, `Mug (6 seconds)`, `Mug (40, 6 seconds)`. */
export function readyText(ware: Ready): string {
  return `${ware.name} (${readyCounts(ware, (count) => String(count)).join(', ')})`;
}

/** `212 firsts and 31 seconds`. */
export function gradesText(ware: Pick<Ready, 'first' | 'second'>): string {
  return listed(readyCounts(ware, (count) => counted(count, 'first')));
}

function readyCounts(
  { first, second }: Pick<Ready, 'first' | 'second'>,
  firsts: (count: number) => string,
): string[] {
  return [
    ...(first > 0 ? [firsts(first)] : []),
    ...(second > 0 ? [counted(second, 'second')] : []),
  ];
}

/** `52% of Big kiln (44 of 84)`; where it is full, how much is left over. */
export function roomText({ kiln, waiting, space, share }: KilnRoom): string {
  const over = waiting.minus(space);
  // Cut down, so that only a full kiln is at 100.
  const percent = Math.floor(share.times(decimal(100)).toNumber());
  if (share.lt(decimal(1)))
    return `${percent}% of ${kiln.name} (${roughly(waiting)} of ${roughly(space)})`;
  const rest = over.isZero() ? 'nothing left over' : `${roughly(over)} left over`;
  return `${kiln.name} is full, ${rest}`;
}

/** `nothing left`, `4.1 lb left, for 6 days`. */
export function stockLeftText({ unit, onHand, daysLeft, state }: Depletion): string {
  if (state === 'out') return 'nothing left';
  const amount = unit === 'each' ? roughly(onHand) : `${roughly(onHand)} ${unit}`;
  if (!daysLeft) return `${amount} left`;
  const days = Math.floor(daysLeft.toNumber());
  return `${amount} left, for ${days === 0 ? 'less than a day' : counted(days, 'day')}`;
}

/** `Silica (out)`, `Kaolin (4.1 lb, 6 days left)`. */
export function stockText({ name, unit, onHand, daysLeft, state }: Depletion): string {
  if (state === 'out') return `${name} (out)`;
  const amount = unit === 'each' ? roughly(onHand) : `${roughly(onHand)} ${unit}`;
  if (!daysLeft) return `${name} (${amount})`;
  const days = Math.floor(daysLeft.toNumber());
  return `${name} (${amount}, ${counted(days, 'day')} left)`;
}

/**
 * `Big kiln (20, glaze, since 2026-07-02, f260702kt)`; alone it has no count, which was said before.
 */
export function inKilnText({ firing, kilnName, count }: InKiln, isAlone: boolean): string {
  const said = isAlone ? [] : [String(count)];
  return `${kilnName} (${[...said, firing.kind, `since ${firing.date}`, firing.id].join(', ')})`;
}

/** What one person or place owes or is owed: `Corner gallery (180.00 since 2026-04-30)`. */
export function debtorText(who: string, debts: readonly Debt[], digits: number): string {
  return `${who} (${owedText(debts, digits)} since ${oldestOf(debts)})`;
}

/** `Corner gallery (180.00)`. */
export function briefDebtorText(who: string, debts: readonly Debt[], digits: number): string {
  return `${who} (${owedText(debts, digits)})`;
}

function owedText(debts: readonly Debt[], digits: number): string {
  return amountText(total(debts.map((debt) => debt.amount)), digits);
}

/** The only one who owes or is owed, whose sum was said before: `Corner gallery (since 2026-04-30)`. */
export function onlyDebtorText(who: string, debts: readonly Debt[]): string {
  return `${who} (since ${oldestOf(debts)})`;
}

function oldestOf(debts: readonly Debt[]): Day {
  const [oldest = ''] = debts.map(({ since }) => since).sort();
  return oldest;
}
