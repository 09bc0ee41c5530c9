/** Finds the lots that pieces left from without a sale, the first finished first, and what to write in them. */
import { countIn } from '../../grouping.ts';
import type { Book, Day, Grade } from '../../book.ts';
import { isList, mapping, valueAt, type RawMap } from '../../read/raw.ts';
import { countsFlow } from '../../reckon/flow.ts';
import { carries } from '../../reckon/ware/finished.ts';
import { placeKey, type LotState } from '../../reckon/ware/lot.ts';
import { byFinish, lotsStanding } from '../../reckon/ware/ware.ts';
import type { Amendment } from '../amendment.ts';
import type { FoundRecord, Lexicon } from '../lexicon.ts';

/** What is to be written in the record of one lot. */
export interface LotChange {
  readonly record: FoundRecord;
  readonly amendments: readonly Amendment[];
}

/** Pieces that left without a sale. */
export interface GoneWare {
  readonly product: string;
  readonly glaze?: string | undefined;
  readonly lot?: string | undefined;
  readonly grade: Grade;
  readonly count: number;
  readonly day: Day;
  /** A gallery's channel, or STUDIO_PLACE. */
  readonly place: string;
  /** What else is to be written of them: how, and where. */
  readonly entry: RawMap;
}

/** The ware of which there is less than is gone, and how many there are. */
export interface ShortWare {
  readonly short: GoneWare;
  readonly had: number;
}

/** Pieces of one lot that one entry is about. */
interface TakenPieces {
  readonly lot: string;
  readonly ware: GoneWare;
  count: number;
}

/** What to write in which lots; or of what there is too little. */
export function goneInLots(
  { book, lexicon }: { readonly book: Book; readonly lexicon: Lexicon },
  gone: readonly GoneWare[],
): readonly LotChange[] | ShortWare {
  const taken: TakenPieces[] = [];
  for (const ware of gone) {
    // What a count found without a lot has no record to write it in.
    const lots = [...lotsStanding(countsFlow(book, ware.day).ware.lots)]
      .filter(({ lot }) => lot.product === ware.product && lexicon.find(lot.id) !== undefined)
      .filter((state) => (ware.lot ?? state.lot.id) === state.lot.id && carries(state, ware.glaze));
    const left = takeFrom(lots.sort(byFinish), ware, taken);
    if (left > 0) return { short: ware, had: ware.count - left };
  }
  return changesOf(taken, lexicon);
}

function takeFrom(lots: readonly LotState[], ware: GoneWare, taken: TakenPieces[]): number {
  let left = ware.count;
  for (const { lot, places } of lots) {
    const known = taken.filter((each) => each.lot === lot.id && isSamePile(each.ware, ware));
    const before = countIn(known);
    const there = (places.get(placeKey(ware.grade, ware.place)) ?? 0) - before;
    const some = Math.min(left, there);
    if (some <= 0) continue;
    const same = known.find((each) => isSameEntry(each.ware, ware));
    if (same) same.count += some;
    else taken.push({ lot: lot.id, ware, count: some });
    left -= some;
  }
  return left;
}

function isSamePile(one: GoneWare, other: GoneWare): boolean {
  return one.grade === other.grade && one.place === other.place;
}

function isSameEntry(one: GoneWare, other: GoneWare): boolean {
  return one.day === other.day && JSON.stringify(one.entry) === JSON.stringify(other.entry);
}

function changesOf(taken: readonly TakenPieces[], lexicon: Lexicon): readonly LotChange[] {
  return [...new Set(taken.map(({ lot }) => lot))].flatMap((lot) => {
    const record = lexicon.find(lot);
    if (!record) return [];
    const gone = valueAt(record.raw, ['gone']);
    const before = isList(gone) ? gone.length : 0;
    const own = taken.filter((each) => each.lot === lot);
    const amendments = own.map((each, index) => ({
      path: ['gone', before + index],
      value: entryOf(each),
    }));
    return [{ record, amendments }];
  });
}

function entryOf({ count, ware: { day, grade, entry } }: TakenPieces): RawMap {
  const { how = '', ...more } = entry;
  return mapping([
    ...Object.entries({ date: day, count: String(count), how }),
    ...(grade === 'second' ? ([['grade', grade]] as const) : []),
    ...Object.entries(more),
  ]);
}
