/** Finds the lots of pieces that went missing at a fair: finished in the studio's hands, the oldest first. */
import type { Book, Grade } from '../../book.ts';
import { carries } from '../../reckon/finished.ts';
import { byFinish, lotsStanding } from '../../reckon/ware.ts';
import { type LotState, STUDIO_PLACE, placeKey } from '../../reckon/lot.ts';
import { countsFlow } from '../../reckon/flow.ts';
import type { Refused } from '../../write/parts.ts';
import type { Amendment } from '../amendment.ts';
import type { Lexicon, Named } from '../lexicon.ts';
import { wareName, type FairDay, type Ware } from './count.ts';
import { isList, mapping, valueAt } from '../../read/raw.ts';

/** What is to be written in the record of one lot. */
export interface LotChange {
  readonly record: Named;
  readonly amendments: readonly Amendment[];
}

/** Where the pieces are looked for. */
export interface Stock {
  readonly book: Book;
  readonly lexicon: Lexicon;
}

/** Pieces of one lot and grade. */
interface Taken {
  readonly lot: string;
  readonly grade: Grade;
  count: number;
}

/** What to write in which lots; refused where fewer are finished than are missing. */
export function missingInLots(
  { book, lexicon }: Stock,
  at: FairDay,
  missing: readonly Ware[],
): readonly LotChange[] | Refused {
  const taken: Taken[] = [];
  // What a count found without a lot has no record to write it in.
  const all = [...lotsStanding(countsFlow(book, at.day).ware.lots)].filter(
    ({ lot }) => lexicon.find(lot.id) !== undefined,
  );
  const inTurn = all.sort(byFinish);
  for (const ware of missing) {
    const { product, glaze, grade = 'first' } = ware;
    const lots = inTurn.filter((each) => each.lot.product === product && carries(each, glaze));
    const left = takeFrom(lots, { taken, grade, count: ware.count });
    if (left > 0) return notFinished(ware, { day: at.day, had: ware.count - left });
  }
  return changesOf(taken, lexicon, at);
}

function takeFrom(
  lots: readonly LotState[],
  { taken, grade, count }: { taken: Taken[]; grade: Grade; count: number },
): number {
  let left = count;
  for (const { lot, places } of lots) {
    const known = taken.find((each) => each.lot === lot.id && each.grade === grade);
    const there = (places.get(placeKey(grade, STUDIO_PLACE)) ?? 0) - (known?.count ?? 0);
    const some = Math.min(left, there);
    if (some <= 0) continue;
    if (known) known.count += some;
    else taken.push({ lot: lot.id, grade, count: some });
    left -= some;
  }
  return left;
}

function changesOf(
  taken: readonly Taken[],
  lexicon: Lexicon,
  { fair, day }: FairDay,
): readonly LotChange[] {
  return [...new Set(taken.map(({ lot }) => lot))].flatMap((lot) => {
    const record = lexicon.find(lot);
    if (!record) return [];
    const gone = valueAt(record.raw, ['gone']);
    const before = isList(gone) ? gone.length : 0;
    const amendments = taken
      .filter((each) => each.lot === lot)
      .map(({ grade, count }, index) => ({
        path: ['gone', before + index],
        value: mapping([
          ...Object.entries({ date: day, count: String(count), how: 'missing' }),
          ...(grade === 'second' ? ([['grade', grade]] as const) : []),
          ['fair', fair.id],
        ]),
      }));
    return [{ record, amendments }];
  });
}

function notFinished(ware: Ware, { day, had }: { day: string; had: number }): Refused {
  const name = wareName(ware);
  return {
    refused: `${ware.count} ${name} are missing, but lots on record have ${had} finished on ${day}; correct --missing, or write down what is there with saggar add counted`,
  };
}
