/** Whole lines that are likely in a list: lots that are ready for the kiln, ware that is for sale, open advances. */
import type { Book, Day, Sale } from '../../book.ts';
import { checkFile } from '../../check/schema.ts';
import { stageName } from '../../check/shortage-words.ts';
import { typeRecord } from '../../check/typed.ts';
import { inForce } from '../../in-force.ts';
import { NO_MONEY, add, less, lesser, total, type Money } from '../../number/money.ts';
import { cachedFor } from '../../once.ts';
import { textUnder, type Raw, type RawMap } from '../../read/raw.ts';
import { advancesOpen, type OpenAdvance } from '../../reckon/sales/advance.ts';
import { booked } from '../../reckon/booked.ts';
import { chargedFor } from '../../reckon/sales/debts.ts';
import { countsFlow } from '../../reckon/flow.ts';
import { STUDIO_PLACE, countAt } from '../../reckon/ware/lot.ts';
import { lotsStanding } from '../../reckon/ware/ware.ts';
import type { Form } from '../form.ts';
import { namedWare, type NamedWare } from '../which-ware.ts';
import type { Lexicon } from '../lexicon.ts';
import { draftId } from './draft.ts';
import { optionWords, recordOf, type Ground } from './ground.ts';
import { inMoney } from './progress.ts';
import type { Answer } from './question.ts';
import type { Term } from './terms.ts';
import {
  boughtLines,
  countedMaterials,
  countedPieces,
  isOfWare,
  listAt,
  wareAt,
} from './book-lines.ts';
import { channelKind } from './usual.ts';

type Likely = (ground: Ground, fields: RawMap) => readonly Term[];

const LIKELY: ReadonlyMap<string, Likely> = new Map(
  Object.entries<Likely>({
    'firings load': loadLines,
    'sales lines': saleLines,
    'sales advances': advanceLines,
    'consigned sent': (ground, fields) =>
      wareLines(ground, fields, { place: STUDIO_PLACE, list: 'sent' }),
    'consigned back': (ground, fields) => thereLines(ground, fields, 'back'),
    'consigned missing': (ground, fields) => thereLines(ground, fields, 'missing'),
    'fairs take': (ground, fields) =>
      wareLines(ground, fields, { place: STUDIO_PLACE, list: 'take' }),
    'bought lines': boughtLines,
    'counted materials': countedMaterials,
    'counted pieces': countedPieces,
  }),
);

/** Lines with a note each, the most likely first; none for most lists. */
export function likelyLines(
  ground: Ground,
  answers: readonly Answer[],
  { kind, field }: Form,
): readonly Term[] {
  const { fields } = recordOf(ground, optionWords(ground, answers));
  return LIKELY.get(`${kind} ${field}`)?.(ground, fields) ?? [];
}

/** The lots that are ready for the kind of firing, without what is in this load already. */
function loadLines(ground: Ground, fields: RawMap): readonly Term[] {
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

/** What is for sale and not in this sale already, by how often it was sold, then classes with their fee. */
function saleLines(ground: Ground, fields: RawMap): readonly Term[] {
  const { lexicon, opened } = ground;
  const isGallery = channelKind(fields, lexicon) === 'consignment';
  const place = isGallery ? textUnder(fields, 'channel') : STUDIO_PLACE;
  const ware = wareLines(ground, fields, { place, list: 'lines' });
  const day = textUnder(fields, 'date');
  const classes = isGallery
    ? []
    : [...opened.book.classes.values()].flatMap((taught) => {
        const { fee } = inForce(taught, day);
        return fee
          ? [
              {
                word: `1 ${taught.id}`,
                note: `${inMoney(opened.book, booked(opened.book, fee))} each`,
              },
            ]
          : [];
      });
  return [...ware, ...classes];
}

/** A gallery's ware, for what comes back from there. */
function thereLines(ground: Ground, fields: RawMap, list: string): readonly Term[] {
  return wareLines(ground, fields, { place: textUnder(fields, 'channel'), list });
}

/** Finished pieces at a place that are not in the record's list already, with their price in its channel. */
function wareLines(
  { lexicon, opened: { book } }: Ground,
  fields: RawMap,
  { place, list }: { readonly place: string; readonly list: string },
): readonly Term[] {
  const sold = timesSold(lexicon);
  const mine = listAt(fields, list);
  const day = textUnder(fields, 'date');
  const isTrade = channelKind(fields, lexicon) === 'wholesale';
  return [...namedWare(book, { day, place }, wareAt(book, day, place).keys())]
    .map((ware) => ({ ...ware, left: ware.count - countTaken(mine, ware) }))
    .filter(({ left }) => left > 0)
    .sort((one, other) => (sold.get(other.product) ?? 0) - (sold.get(one.product) ?? 0))
    .map(({ product, grade, words, left }) => {
      const known = inForce(book.products.get(product), day);
      const price = grade === 'second' ? known?.second : isTrade ? known?.wholesale : known?.price;
      const at = price ? `, ${inMoney(book, booked(book, price))} each` : '';
      return {
        word: `1 ${words}`,
        note: `${left} ${place === STUDIO_PLACE ? 'here' : 'there'}${at}`,
      };
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

/** How many of some ware the lines take; what comes back takes none. */
function countTaken(lines: readonly Raw[], ware: NamedWare): number {
  const taken = lines.filter(
    (line) => isOfWare(line, ware) && textUnder(line, 'returned') !== 'yes',
  );
  return taken.reduce((total, line) => total + Number(textUnder(line, 'count')), 0);
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

/** The kinds of firing that pieces are ready for. */
export function kindsReady(book: Book, day: Day): ReadonlySet<string> {
  const states = [...lotsStanding(countsFlow(book, day).ware.lots)];
  return new Set(
    states.flatMap((state) => state.fired.filter((_, stage) => countAt(state, stage) > 0)),
  );
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
