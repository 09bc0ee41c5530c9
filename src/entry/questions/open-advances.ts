/** The deposits and certificates that a sale may use: asked for where there are any, and offered as lines. */
import type { Book, Sale } from '../../book.ts';
import { checkFile } from '../../check/schema.ts';
import { typeRecord } from '../../check/typed.ts';
import { NO_MONEY, add, less, lesser, total, type Money } from '../../number/money.ts';
import { advancesOpen, type OpenAdvance } from '../../reckon/advance.ts';
import { booked } from '../../reckon/booked.ts';
import { chargedFor } from '../../reckon/debts.ts';
import type { RawMap } from '../../read/raw.ts';
import { draftId } from './draft.ts';
import type { Ground } from './ground.ts';
import { inMoney } from './progress.ts';
import type { Term } from './terms.ts';
import { channelKind } from './usual.ts';

/** Channels at which nobody pays with what was paid beforehand. */
const NOT_AT: ReadonlySet<string> = new Set(['fair', 'consignment']);

/**
 * What is left of the advances that the sale may use, the oldest first: those of its buyer, and
 * certificates, which anybody may bring. Without a buyer everybody's deposits are among them. None at a
 * fair or by a gallery.
 */
export function usableAdvances(
  { opened: { book, asOf }, lexicon }: Ground,
  fields: RawMap,
): readonly OpenAdvance[] {
  if (NOT_AT.has(channelKind(fields, lexicon))) return [];
  const { date = asOf, buyer } = fields;
  const day = typeof date === 'string' ? date : asOf;
  return advancesOpen(book, day).filter(
    ({ advance, left }) =>
      left > NO_MONEY &&
      (advance.for === 'certificate' || buyer === undefined || advance.buyer === buyer),
  );
}

/** Whole lines for them: each with what is left of it, but no more than is still due for the sale. */
export function advanceLines(ground: Ground, fields: RawMap): readonly Term[] {
  const { book } = ground.opened;
  const sale = soundSale(ground, fields);
  const used = usedIn(book, sale);
  const due = sale && less(chargedFor(book, sale), total(used.values()));
  return usableAdvances(ground, fields).flatMap(({ advance, left: open }) => {
    const left = less(open, used.get(advance.id) ?? NO_MONEY);
    const amount = due === undefined ? left : lesser(due, left);
    if (amount <= NO_MONEY) return [];
    const said = [advance.number ?? '', advance.buyer === undefined ? '' : `of ${advance.buyer}`];
    const words = [advance.for, ...said].filter((word) => word !== '').join(' ');
    const note = `${words}, ${inMoney(book, left)} left, since ${advance.date}`;
    return [{ word: `${advance.id} ${inMoney(book, amount)}`, note }];
  });
}

/** What a sale uses, by advance. */
function usedIn(book: Book, sale: Sale | undefined): Map<string, Money> {
  const used = new Map<string, Money>();
  for (const { advance, amount } of sale?.advances ?? [])
    used.set(advance, add(booked(book, amount), used.get(advance) ?? NO_MONEY));
  return used;
}

/** The sale as far as it goes; undefined while something in it is not sound. */
function soundSale({ kind }: Ground, fields: RawMap): Sale | undefined {
  const id = draftId(kind);
  const file = { file: id, kind: 'sales' as const, root: { [id]: fields }, odd: false };
  const isSound = checkFile(file, () => undefined).findings.length === 0;
  return isSound ? typeRecord('sales', fields, { id, file: id }) : undefined;
}
