/** Whole lines that are likely in a list: lots that are ready for the kiln, ware that is for sale, open advances. */
import type { Book, Day, Sale } from '../../book.ts';
import { checkFile } from '../../check/schema.ts';
import { stageName } from '../../check/shortage-words.ts';
import { typeRecord } from '../../check/typed.ts';
import { inForce } from '../../in-force.ts';
import { NO_MONEY, add, less, lesser, total, type Money } from '../../number/money.ts';
import { cachedFor } from '../../once.ts';
import { textUnder, isList, isMap, valueAt, type Raw, type RawMap } from '../../read/raw.ts';
import { advancesOpen, type OpenAdvance } from '../../reckon/sales/advance.ts';
import { booked } from '../../reckon/booked.ts';
import { chargedFor } from '../../reckon/sales/debts.ts';
import { countsFlow } from '../../reckon/flow.ts';
import { STUDIO_PLACE, countAt, piecesAt } from '../../reckon/ware/lot.ts';
import { lotsStanding } from '../../reckon/ware/ware.ts';
import type { Form } from '../form.ts';
import type { Lexicon } from '../lexicon.ts';
import { draftId } from './draft.ts';
import { optionWords, recordOf, type Ground } from './ground.ts';
import { inMoney } from './progress.ts';
import type { Answer } from './question.ts';
import type { Term } from './terms.ts';
import { channelKind } from './usual.ts';

/** Lines with a note each, the most likely first; none for most lists. */
export function likelyLines(
  ground: Ground,
  answers: readonly Answer[],
  { kind, field }: Form,
): readonly Term[] {
  if (kind === 'firings' && field === 'load') return loadLines(ground, answers);
  if (kind !== 'sales') return [];
  if (field === 'advances')
    return advanceLines(ground, recordOf(ground, optionWords(ground, answers)).fields);
  return field === 'lines' ? saleLines(ground, answers) : [];
}

/** The lots that are ready for the kind of firing, without what is in this load already. */
function loadLines(ground: Ground, answers: readonly Answer[]): readonly Term[] {
  const { fields } = recordOf(ground, optionWords(ground, answers));
  const kind = textUnder(fields, 'kind');
  const loaded = listAt(fields, 'load');
  return lotsReadyFor(ground.opened.book, textUnder(fields, 'date'), kind).flatMap(
    ({ lot, count, note }) => {
      const mine = loaded.filter((line) => textUnder(line, 'lot') === lot);
      const left = mine.reduce((total, line) => total - Number(textUnder(line, 'in')), count);
      return left > 0 ? [{ word: `${left} ${lot}`, note }] : [];
    },
  );
}

/** What is for sale and not in this sale already, by how often it was sold. */
function saleLines(ground: Ground, answers: readonly Answer[]): readonly Term[] {
  const { lexicon, opened } = ground;
  const { book } = opened;
  const { fields } = recordOf(ground, optionWords(ground, answers));
  const mine = listAt(fields, 'lines');
  const sold = timesSold(lexicon);
  const isGallery = channelKind(fields, lexicon) === 'consignment';
  const place = isGallery ? textUnder(fields, 'channel') : STUDIO_PLACE;
  const day = textUnder(fields, 'date');
  return [...wareAt(book, day, place)]
    .map(([product, count]) => ({ product, left: count - countOfProduct(mine, product) }))
    .filter(({ left }) => left > 0)
    .sort((one, other) => (sold.get(other.product) ?? 0) - (sold.get(one.product) ?? 0))
    .map(({ product, left }) => {
      const price = inForce(book.products.get(product), day)?.price;
      const at = price ? `, ${inMoney(book, booked(book, price))} each` : '';
      return { word: `1 ${product}`, note: `${left} ${isGallery ? 'there' : 'here'}${at}` };
    });
}

/** Product → on how many lines it was sold; asked for before every line of a long sale. */
const timesSold = cachedFor((lexicon: Lexicon): ReadonlyMap<string, number> => {
  const sold = new Map<string, number>();
  const lines = lexicon.records(['sales']).flatMap(({ raw }) => listAt(raw, 'lines'));
  for (const product of lines.map((line) => textUnder(line, 'product')))
    sold.set(product, (sold.get(product) ?? 0) + 1);
  return sold;
});

/** How many of a product the lines take; what comes back takes none. */
function countOfProduct(lines: readonly Raw[], product: string): number {
  const taken = lines.filter(
    (line) => textUnder(line, 'product') === product && textUnder(line, 'returned') !== 'yes',
  );
  return taken.reduce((total, line) => total + Number(textUnder(line, 'count')), 0);
}

function listAt(record: Raw, field: string): readonly Raw[] {
  const list = valueAt(record, [field]);
  return isList(list) ? list.filter(isMap) : [];
}

/** Pieces of one lot that stand ready for a firing. */
interface ReadyLot {
  readonly lot: string;
  readonly count: number;
  /** `mug, 24 greenware ready`. */
  readonly note: string;
}

/** The lots whose next firing is of a kind, the oldest first. */
function lotsReadyFor(book: Book, day: Day, kind: string): readonly ReadyLot[] {
  return [...lotsStanding(countsFlow(book, day).ware.lots)].flatMap((state) => {
    const stage = state.fired.findIndex((firing, at) => firing === kind && countAt(state, at) > 0);
    if (stage < 0) return [];
    const count = countAt(state, stage);
    const { id, product, title } = state.lot;
    const what = `${title ?? product}, ${count} ${stageName(state.fired, stage)} ready`;
    return [{ lot: id, count, note: what }];
  });
}

/**
 * Products with how many finished pieces stand at a place, none left out that has any there.
 * @param place a gallery's channel, or STUDIO_PLACE
 */
export function wareAt(book: Book, day: Day, place: string): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const state of lotsStanding(countsFlow(book, day).ware.lots)) {
    const count = piecesAt(state, place);
    const { product } = state.lot;
    if (count > 0) counts.set(product, (counts.get(product) ?? 0) + count);
  }
  return counts;
}

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
function advanceLines(ground: Ground, fields: RawMap): readonly Term[] {
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
