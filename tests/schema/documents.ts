/** Good and bad records of every kind, as they would stand in a file. */
import type { Kind } from '../../src/book.ts';
import { DEFINITIONS } from './documents/definitions.ts';
import { PLACES } from './documents/places.ts';
import { STOCK } from './documents/stock.ts';
import { WARE } from './documents/ware.ts';
import { MONEY } from './documents/money.ts';
import type { Documents } from './documents/form.ts';

export { fileOf, type Documents } from './documents/form.ts';

export const DOCUMENTS: Readonly<Record<Kind | 'studio', Documents>> = {
  ...DEFINITIONS,
  ...PLACES,
  ...STOCK,
  ...WARE,
  ...MONEY,
};
