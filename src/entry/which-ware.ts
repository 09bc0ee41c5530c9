/** Which pieces a line means that names no glaze, or no grade, where several stand. */
import type { Book, Day, Grade, Kind } from '../book.ts';
import { listed } from '../check/finding.ts';
import { isDay } from '../number/date.ts';
import { isList, isMap, textUnder, valueAt, type RawMap } from '../read/raw.ts';
import { countsFlow } from '../reckon/flow.ts';
import { STUDIO_PLACE, placeKey } from '../reckon/ware/lot.ts';
import { carries } from '../reckon/ware/finished.ts';
import { lotsStanding } from '../reckon/ware/ware.ts';
import type { TypedFault } from './expand.ts';

/** The pieces that a line names, as far as it does. */
export interface MeantWare {
  readonly day: Day;
  /** A gallery's channel, or STUDIO_PLACE. */
  readonly place: string;
  readonly product: string;
  readonly glaze?: string | undefined;
  readonly grade?: Grade | undefined;
  readonly lot?: string | undefined;
}

/** Finished pieces of one grade with the same glazes on them that stand at one place. */
export interface StandingWare {
  readonly grade: Grade;
  /** `sea-green + rust`; empty for none. */
  readonly glaze: string;
  readonly count: number;
  /** The lots that they are of, with how many of each, the first finished first. */
  readonly lots: readonly { readonly id: string; readonly count: number }[];
}

/** What may be added to a line so that it says which pieces it means. */
export interface WareChoice {
  readonly words: string;
  /** How many there are of these; undefined where that says nothing, as of pieces that come back. */
  readonly count: number | undefined;
}

/** The pieces that a line may mean, firsts before seconds, by their glazes. */
export function standingWare(book: Book, meant: MeantWare): readonly StandingWare[] {
  const found = new Map<string, StandingWare>();
  const grades = meant.grade ? [meant.grade] : BOTH_GRADES;
  const meantLots = [...lotsStanding(countsFlow(book, meant.day).ware.lots)].filter(
    (state) =>
      state.lot.product === meant.product &&
      (meant.lot ?? state.lot.id) === state.lot.id &&
      carries(state, meant.glaze),
  );
  for (const [state, grade] of meantLots.flatMap((lot) =>
    grades.map((each) => [lot, each] as const),
  )) {
    const count = state.places.get(placeKey(grade, meant.place)) ?? 0;
    const key = `${grade} ${state.glaze}`;
    const known = found.get(key) ?? { grade, glaze: state.glaze, count: 0, lots: [] };
    const lots = [...known.lots, { id: state.lot.id, count }];
    if (count > 0) found.set(key, { ...known, count: known.count + count, lots });
  }
  return [...found.values()].sort((one, other) =>
    one.grade < other.grade ? -1 : one.grade > other.grade ? 1 : 0,
  );
}

const BOTH_GRADES: readonly Grade[] = ['first', 'second'];

/** What a line may be about; empty where nothing is to be chosen. A line without a grade is about firsts. */
export function wareChoices(book: Book, meant: MeantWare): readonly WareChoice[] {
  const all = standingWare(book, meant);
  const firsts = all.filter(({ grade }) => grade === (meant.grade ?? 'first'));
  if (firsts.length > 0) return isNamed(meant) ? [] : among(firsts, '');
  return meant.grade === undefined ? among(all, 'second ', 1) : [];
}

/** Finished pieces at a place as a line names them, with how many there are. */
export interface NamedWare {
  readonly product: string;
  readonly grade: Grade;
  /** `mug oatmeal`, `mug second`. */
  readonly words: string;
  readonly count: number;
}

/** All finished pieces of the products at a place, each as shortly as tells it from the others there. */
export function namedWare(
  book: Book,
  { day, place }: Pick<MeantWare, 'day' | 'place'>,
  products: Iterable<string>,
): readonly NamedWare[] {
  return [...products].flatMap((product) => {
    const all = standingWare(book, { day, place, product });
    return BOTH_GRADES.flatMap((grade) => {
      const same = all.filter((each) => each.grade === grade);
      const before = grade === 'second' ? 'second ' : '';
      return among(same, before, 1).map(({ words, count = 0 }) => ({
        product,
        grade,
        words: `${product} ${words}`.trim(),
        count,
      }));
    });
  });
}

function isNamed({ glaze, lot }: MeantWare): boolean {
  return (glaze ?? lot) !== undefined;
}

/** Each with the words that tell it from the others; nothing for fewer than are worth a question. */
function among(wares: readonly StandingWare[], before: string, least = 2): readonly WareChoice[] {
  if (wares.length < least) return [];
  if (wares.length === 1) return wares.map(({ count }) => ({ words: before.trim(), count }));
  return wares.flatMap((ware) => {
    const others = wares.filter((other) => other !== ware).map(({ glaze }) => glaze.split(' + '));
    const own = ware.glaze
      .split(' + ')
      .find((name) => !others.some((names) => names.includes(name)));
    // Where no glaze tells them apart, the lots do.
    const named = own ? [{ id: own, count: ware.count }] : ware.lots;
    return named.map(({ id, count }) => ({ words: before + id, count }));
  });
}

/** A line of a record that leaves open which pieces it means, and what can be added to it. */
export interface OpenLine {
  readonly path: readonly [field: string, index: number];
  readonly product: string;
  /** `in the studio`, `at gallery`; empty of pieces that come back from a buyer. */
  readonly where: string;
  readonly choices: readonly WareChoice[];
}

/** The lines of a new sale or consignment that leave it open. */
export function openLines(book: Book, kind: Kind, fields: RawMap): readonly OpenLine[] {
  return (LISTS[kind] ?? []).flatMap((field) => {
    const lines = valueAt(fields, [field]);
    if (!isList(lines)) return [];
    return lines.flatMap((line, index) => {
      const meant = isMap(line) ? wareOfLine({ book, kind, fields }, field, line) : undefined;
      if (!meant) return [];
      const { where, ware } = meant;
      const choices = where === '' ? glazesBack(book, ware) : wareChoices(book, ware);
      const { product } = ware;
      return choices.length > 0
        ? ([{ path: [field, index], product, where, choices }] as const)
        : [];
    });
  });
}

const LISTS: Readonly<Partial<Record<Kind, readonly string[]>>> = {
  sales: ['lines'],
  consigned: ['sent', 'back', 'missing'],
};

interface LineOwner {
  readonly book: Book;
  readonly kind: Kind;
  readonly fields: RawMap;
}

function wareOfLine(
  { book, fields }: LineOwner,
  field: string,
  line: RawMap,
): { readonly ware: MeantWare; readonly where: string } | undefined {
  const day = textUnder(fields, 'date');
  const [product, glaze, lot, grade] = ['product', 'glaze', 'lot', 'grade'].map(
    (name) => textUnder(line, name) || undefined,
  );
  if (product === undefined || !isDay(day) || !book.products.has(product)) return undefined;
  const channel = textUnder(fields, 'channel');
  const isThere =
    field === 'lines' ? book.channels.get(channel)?.kind === 'consignment' : field !== 'sent';
  const place = isThere ? channel : STUDIO_PLACE;
  const isReturn = textUnder(line, 'returned') === 'yes';
  const where = isReturn ? '' : isThere ? `at ${channel}` : 'in the studio';
  return { ware: { day, place, product, glaze, lot, grade: grade as Grade | undefined }, where };
}

/** What a piece that comes back may be: any glaze that the product's lots have had. */
function glazesBack(book: Book, { day, product, glaze, lot }: MeantWare): readonly WareChoice[] {
  if ((glaze ?? lot) !== undefined) return [];
  const all = [...(countsFlow(book, day).ware.glazes.get(product) ?? [])];
  const wares = all.map((each) => ({ grade: 'first' as const, glaze: each, count: 0, lots: [] }));
  return among(wares, '').map(({ words }) => ({ words, count: undefined }));
}

/** What is said of a line that leaves it open: what there is to choose from, and what to write. */
export function openLineWords(
  { product, where, choices }: OpenLine,
  sentence: string,
): { readonly message: string; readonly hint: string } {
  const there = choices.map(({ words, count }) =>
    count === undefined ? words : `${count} ${words}`,
  );
  const isOfSeconds = choices.every(({ words }) => words.startsWith('second'));
  const which = isOfSeconds ? `no firsts of ${product} are left` : `which ${product} is not said`;
  const line = sentence === '' ? product : sentence;
  return {
    message:
      where === ''
        ? `${which}: it comes as ${listed(there)}`
        : `${which}: ${where} are ${listed(there)}`,
    hint: `write ${listed(
      choices.map(({ words }) => `"${withWords(line, product, words)}"`),
      'or',
    )}`,
  };
}

/** The line with words after the product, where they usually go: before a price. */
function withWords(line: string, product: string, words: string): string {
  const typed = line.split(' ');
  const at = typed.findIndex((word) => word.toLowerCase() === product.toLowerCase());
  return typed.toSpliced(at < 0 ? typed.length : at + 1, 0, words).join(' ');
}

/** What is wrong with lines that leave open which of several pieces they mean. */
export function openFaults(
  book: Book,
  kind: Kind,
  { typed, fields }: { readonly typed: RawMap; readonly fields: RawMap },
): readonly TypedFault[] {
  return openLines(book, kind, fields).map((open) => {
    const raw = valueAt(typed, open.path);
    const sentence = typeof raw === 'string' ? raw : '';
    const { path } = open;
    const said = openLineWords(open, sentence);
    return { rule: 'schema', path, sentence, start: 0, width: sentence.length, ...said };
  });
}
