/** Which sales are plain: of ware alone, from the studio, with nothing that ties them to other records. */
import type { Raw, RawMap } from '../read/raw.ts';
import { isList, isMap } from './at-path.ts';

const SALE_FIELDS: ReadonlySet<string> = new Set([
  'date',
  'channel',
  'buyer',
  'note',
  'paid',
  'lines',
  'discount',
  'shipping',
  'tax',
  'tax-place',
  'card',
  'fee',
]);

const LINE_FIELDS: ReadonlySet<string> = new Set([
  'product',
  'count',
  'price',
  'grade',
  'discount',
  'taxed',
]);

/** Whether a sale has no fields but those of a plain one; lines that are still sentences may be any. */
export function mayBePlain(sale: RawMap): boolean {
  return hasOnly(sale, SALE_FIELDS);
}

/** Whether a whole record is a plain sale. Which channel it is of must be asked apart. */
export function isPlainSale(sale: RawMap): boolean {
  const { lines } = sale;
  return mayBePlain(sale) && isList(lines) && lines.every(isPlainLine);
}

function isPlainLine(line: Raw): boolean {
  return isMap(line) && hasOnly(line, LINE_FIELDS) && line['product'] !== undefined;
}

function hasOnly(record: RawMap, names: ReadonlySet<string>): boolean {
  return Object.keys(record).every((name) => names.has(name));
}
