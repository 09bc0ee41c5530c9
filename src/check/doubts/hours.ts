/** Hours and minutes that are far from the book's own. */
import type { Fair, Firing, Lot, Product } from '../../book.ts';
import { daysBetween } from '../../number/date.ts';
import type { Decimal } from '../../number/decimal.ts';
import { eachStating } from '../finding.ts';
import { usual, type Rule } from '../rule.ts';
import { isAbove } from './amounts.ts';
import type { GatherScene } from './figure.ts';
import { BY_MANY_TIMES, BY_TIMES } from './measures.ts';

const WORK = { measure: BY_MANY_TIMES, what: 'work of' };

const hoursSlip: Rule = {
  name: 'hours-slip',
  severity: 'warning',
  isDoubt: true,
  about:
    'The hours of a firing, at a kiln or at a stall, or the minutes of a piece, are far from those of its like.',
  looks: [
    usual('firings', { measure: BY_TIMES, what: 'firing for', joint: 'in' }, (firing, scene) => {
      noteHours(firing, { hours: firing.hours, path: 'hours' }, scene);
    }),
    usual(
      'firings',
      { measure: BY_MANY_TIMES, what: 'tending for', joint: 'at' },
      (firing, scene) => {
        noteHours(firing, { hours: firing.tended, path: 'tended' }, scene);
      },
    ),
    usual('fairs', { measure: BY_TIMES, what: 'a day of', joint: 'at' }, gatherStall),
    usual('products', WORK, gatherMinutes),
    usual('pieces', WORK, gatherWork),
  ],
};

type KilnKind = Pick<Firing, 'kiln' | 'kind' | 'date'>;

function noteHours(
  { kiln, kind, date: day }: KilnKind,
  { hours, path }: { readonly hours: Decimal | undefined; readonly path: string },
  { note }: GatherScene,
): void {
  if (!isAbove(hours)) return;
  const text = (): string => `${hours.toFixed()} hours`;
  note({ like: `${kiln}, ${kind}`, size: hours.toNumber(), day, path: [path], text });
}

function gatherStall({ date: day, last = day, channel, hours }: Fair, { note }: GatherScene): void {
  if (!isAbove(hours)) return;
  const size = hours.toNumber() / (daysBetween(day, last) + 1);
  note({ like: channel, size, day, path: ['hours'], text: () => `${hours.toFixed()} hours` });
}

function gatherMinutes(product: Product, { note }: GatherScene): void {
  eachStating(product, ({ minutes, ...stated }, above) => {
    if (!isAbove(minutes)) return;
    const day = 'from' in stated ? stated.from : '';
    const text = (): string => `${minutes.toFixed()} minutes a piece`;
    note({ like: product.id, size: minutes.toNumber(), day, path: [...above, 'minutes'], text });
  });
}

function gatherWork({ product: like, date: day, minutes, made }: Lot, { note }: GatherScene): void {
  if (!isAbove(minutes) || made === 0) return;
  const text = (): string => `${minutes.toFixed()} minutes for ${made}`;
  note({ like, size: minutes.toNumber() / made, day, path: ['minutes'], text });
}

/** The rule on hours. */
export const HOURS_DOUBTS: readonly Rule[] = [hoursSlip];
