/** Whole lines that are likely in a list: lots that are ready for the kiln, ware that is for sale, open advances. */
import { type Raw, isList, isMap, valueAt } from '../../read/raw.ts';
import { inForce } from '../../in-force.ts';
import { booked } from '../../reckon/booked.ts';
import type { Lexicon } from '../lexicon.ts';
import type { Form } from '../forms.ts';
import { recordOf, wordsOf, type Ground } from './ground.ts';
import { advanceLines } from './open-advances.ts';
import { inMoney } from './progress.ts';
import type { Answer } from './question.ts';
import { lotsReadyFor, wareAt } from './ready.ts';
import type { Term } from './terms.ts';
import { channelKind } from './usual.ts';
import { STUDIO_PLACE } from '../../reckon/lot.ts';
import { cachedFor } from '../../once.ts';

/** Lines with a note each, the most likely first; none for most lists. */
export function likelyLines(
  ground: Ground,
  answers: readonly Answer[],
  { kind, field }: Form,
): readonly Term[] {
  if (kind === 'firings' && field === 'load') return loadLines(ground, answers);
  if (kind !== 'sales') return [];
  if (field === 'advances')
    return advanceLines(ground, recordOf(ground, wordsOf(ground, answers)).fields);
  return field === 'lines' ? saleLines(ground, answers) : [];
}

/** The lots that are ready for the kind of firing, without what is in this load already. */
function loadLines(ground: Ground, answers: readonly Answer[]): readonly Term[] {
  const { fields } = recordOf(ground, wordsOf(ground, answers));
  const kind = textAt(fields, 'kind');
  const loaded = listAt(fields, 'load');
  return lotsReadyFor(ground.opened.book, textAt(fields, 'date'), kind).flatMap(
    ({ lot, count, note }) => {
      const mine = loaded.filter((line) => textAt(line, 'lot') === lot);
      const left = mine.reduce((total, line) => total - Number(textAt(line, 'in')), count);
      return left > 0 ? [{ word: `${left} ${lot}`, note }] : [];
    },
  );
}

/** What is for sale and not in this sale already, by how often it was sold. */
function saleLines(ground: Ground, answers: readonly Answer[]): readonly Term[] {
  const { lexicon, opened } = ground;
  const { book } = opened;
  const { fields } = recordOf(ground, wordsOf(ground, answers));
  const mine = listAt(fields, 'lines');
  const sold = timesSold(lexicon);
  const isGallery = channelKind(fields, lexicon) === 'consignment';
  const place = isGallery ? textAt(fields, 'channel') : STUDIO_PLACE;
  const day = textAt(fields, 'date');
  return [...wareAt(book, day, place)]
    .map(([product, count]) => ({ product, left: count - countIn(mine, product) }))
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
  for (const product of lines.map((line) => textAt(line, 'product')))
    sold.set(product, (sold.get(product) ?? 0) + 1);
  return sold;
});

/** How many of a product the lines take; what comes back takes none. */
function countIn(lines: readonly Raw[], product: string): number {
  const taken = lines.filter(
    (line) => textAt(line, 'product') === product && textAt(line, 'returned') !== 'yes',
  );
  return taken.reduce((total, line) => total + Number(textAt(line, 'count')), 0);
}

function listAt(record: Raw, field: string): readonly Raw[] {
  const list = valueAt(record, [field]);
  return isList(list) ? list.filter(isMap) : [];
}

function textAt(record: Raw, field: string): string {
  const value = valueAt(record, [field]);
  return typeof value === 'string' ? value : '';
}
