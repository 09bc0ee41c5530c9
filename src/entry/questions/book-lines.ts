/** What the book has, as the lines of a purchase or a stocktake: packs and last prices, and all that is there. */
import type { Book, Day } from '../../book.ts';
import { roundTo } from '../../number/decimal.ts';
import { inUnit } from '../../number/measure.ts';
import { isList, isMap, textUnder, valueAt, type Raw, type RawMap } from '../../read/raw.ts';
import { countsFlow } from '../../reckon/flow.ts';
import { STUDIO_PLACE, piecesAt } from '../../reckon/ware/lot.ts';
import { lotsStanding } from '../../reckon/ware/ware.ts';
import { namedWare, type NamedWare } from '../which-ware.ts';
import type { Ground } from './ground.ts';
import type { Term } from './terms.ts';
import { recordsByDay } from './usual.ts';

/** What was bought of this supplier, the last time of each material with its pack and price. */
export function boughtLines(
  { lexicon, opened: { book } }: Ground,
  fields: RawMap,
): readonly Term[] {
  const supplier = textUnder(fields, 'supplier');
  const mine = new Set(listAt(fields, 'lines').map((line) => textUnder(line, 'material')));
  const last = new Map<string, Term>();
  for (const record of recordsByDay(lexicon, 'bought').filter(
    (each) => each['supplier'] === supplier,
  ))
    for (const line of listAt(record, 'lines')) {
      const [material = '', quantity = '', cost = ''] = ['material', 'quantity', 'cost'].map(
        (name) => textUnder(line, name),
      );
      last.delete(material);
      last.set(material, {
        word: `${quantity} ${material} for ${cost}`,
        note: textUnder(record, 'date'),
      });
    }
  return [...last]
    .flatMap(([material, term]) =>
      mine.has(material) || !book.materials.has(material) ? [] : [term],
    )
    .reverse();
}

/** Every material and bucket with what the book has of it. */
export function countedMaterials({ opened: { book } }: Ground, fields: RawMap): readonly Term[] {
  const mine = new Set(listAt(fields, 'materials').map((line) => textUnder(line, 'material')));
  const { pools } = countsFlow(book, textUnder(fields, 'date')).stock;
  return [...pools.values()].flatMap(({ id, unit, pool }) => {
    if (mine.has(id)) return [];
    const there = roundTo(inUnit(pool.onHand, unit), 3).toString();
    const text = unit === 'each' ? there : `${there} ${unit}`;
    return [{ word: `${text} ${id}`, note: 'by the book' }];
  });
}

/** All finished ware with what the book has of it, in the studio and then at each gallery. */
export function countedPieces({ opened: { book } }: Ground, fields: RawMap): readonly Term[] {
  const mine = listAt(fields, 'pieces');
  const day = textUnder(fields, 'date');
  const galleries = [...book.channels.values()].filter(({ kind }) => kind === 'consignment');
  return [STUDIO_PLACE, ...galleries.map(({ id }) => id)].flatMap((place) => {
    const here = mine.filter((line) => textUnder(line, 'place') === place);
    const where = place === STUDIO_PLACE ? '' : ` at ${place}`;
    return namedWare(book, { day, place }, wareAt(book, day, place).keys()).flatMap((ware) => {
      const said = ware.grade === 'first' ? ' first' : '';
      const isCounted = here.some((line) => isOfWare(line, ware));
      return isCounted
        ? []
        : [{ word: `${ware.count} ${ware.words}${said}${where}`, note: 'by the book' }];
    });
  });
}

/** Whether a line is of some ware. */
export function isOfWare(
  line: Raw,
  { product, grade, words }: Pick<NamedWare, 'product' | 'grade' | 'words'>,
): boolean {
  const glaze = textUnder(line, 'glaze') || textUnder(line, 'lot');
  const isSame =
    textUnder(line, 'product') === product && (textUnder(line, 'grade') || 'first') === grade;
  return isSame && (glaze === '' || words === product || words.split(' ').includes(glaze));
}

/** The records in a list of a record. */
export function listAt(record: Raw, field: string): readonly Raw[] {
  const list = valueAt(record, [field]);
  return isList(list) ? list.filter(isMap) : [];
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
