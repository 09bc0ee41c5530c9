/** How clays shrink and what water they take up, by cone; and how large to throw. */
import type { Book, Day } from '../../book.ts';
import { sentences } from '../../in-words.ts';
import {
  claysMeasured,
  throwingSizes,
  type ClayMeasured,
  type ThrowingSize,
} from '../../reckon/claims/shrinkage.ts';
import { backed, tableHead } from '../head.ts';
import type { Column, Row, Table, Verdict } from '../table.ts';
import { shareText } from '../verdicts/parts.ts';

const CLAY_COLUMNS: readonly Column[] = [
  { key: 'part', title: 'Part', type: 'text' },
  { key: 'clay', title: 'Clay', type: 'id' },
  { key: 'cone', title: 'Cone', type: 'text' },
  { key: 'product', title: 'Product', type: 'id' },
  { key: 'bars', title: 'Bars', type: 'count', drop: 2 },
  { key: 'dry', title: 'Dry', type: 'fraction', drop: 4 },
  { key: 'bisqued', title: 'Bisqued', type: 'fraction', drop: 3 },
  { key: 'shrinkage', title: 'Shrinkage', type: 'fraction' },
  { key: 'absorption', title: 'Absorption', type: 'fraction' },
  { key: 'pieces', title: 'Pieces soaked', type: 'count', drop: 1 },
  { key: 'wetHeight', title: 'Throw height', type: 'quantity', unit: 'mm', places: 0 },
  { key: 'wetWidth', title: 'Throw width', type: 'quantity', unit: 'mm', places: 0 },
  { key: 'firedHeight', title: 'Fired height', type: 'quantity', unit: 'mm', places: 0, drop: 5 },
  { key: 'firedWidth', title: 'Fired width', type: 'quantity', unit: 'mm', places: 0, drop: 5 },
  { key: 'volume', title: 'Volume left', type: 'fraction', drop: 6 },
];

/** The clays that were measured, and the throwing sizes that come of that. */
export function claysTable(book: Book, asOf: Day): Table {
  const clays = claysMeasured(book, asOf);
  const sizes = throwingSizes(book, asOf);
  const sized = [...book.products.values()].filter(({ size }) => size !== undefined).length;
  return {
    report: 'clays',
    title: 'How clays shrink, and how large to throw',
    ...tableHead(book, asOf),
    currency: '',
    columns: CLAY_COLUMNS,
    partedBy: 'part',
    ...backed([
      ...clays.map((each) => ({ row: clayRow(each), behind: each.tests })),
      ...sizes.map((each) => ({ row: sizeRow(each), behind: [each.product.id] })),
    ]),
    verdict: claysVerdict(book, clays),
    notes: sentences(
      clays.length === 0 &&
        'No bar of clay is on record: record one with saggar add tests, of kind shrinkage or absorption.',
      clays.length > 0 &&
        'Shrinkage: from wet, the mean of the bars. Absorption: water taken up by dry weight; five pieces are usually asked for (ASTM C373).',
      sizes.length > 0 &&
        'Throw: fired size ÷ (1 − shrinkage). What a piece holds falls by the cube of what it shrinks.',
      sized > sizes.length &&
        `${sized - sizes.length} of ${sized} products with a size are of a clay that was not measured at their cone.`,
    ),
  };
}

/** What shrinks most; undefined where nothing was measured wet and fired. */
function claysVerdict(book: Book, clays: readonly ClayMeasured[]): Verdict | undefined {
  const told = clays.flatMap((each) => (each.fired ? [{ ...each, fired: each.fired }] : []));
  const [most, next] = told.sort((one, other) => other.fired.cmp(one.fired));
  if (!most) return undefined;
  const nameOf = (clay: string): string => book.materials.get(clay)?.name ?? clay;
  const figures = told.slice(0, 3).map(({ clay, cone, fired }) => ({
    label: nameOf(clay) + (cone === undefined ? '' : `, cone ${cone}`),
    column: { type: 'fraction' } as const,
    cell: fired,
  }));
  const at = most.cone === undefined ? '' : ` at cone ${most.cone}`;
  const by = `by ${shareText(most.fired)}${at}`;
  const sentence = `${nameOf(most.clay)} shrinks ${next ? 'most, ' : ''}${by}.`;
  return { sentence, figures };
}

function clayRow(measured: ClayMeasured): Row {
  const { clay, cone, bars, dry, bisqued, fired, absorption, pieces } = measured;
  return { part: 'Clays', clay, cone, bars, dry, bisqued, shrinkage: fired, absorption, pieces };
}

function sizeRow({ product, clay, cone, shrinkage, wet, fired, volume }: ThrowingSize): Row {
  return {
    ...{ part: 'Throwing sizes', clay, cone, product: product.id, shrinkage, volume },
    ...{ wetHeight: wet.height, wetWidth: wet.width },
    ...{ firedHeight: fired.height, firedWidth: fired.width },
  };
}
