/** What people call the places where material value stands, and the ways it leaves by. */
import type { Account } from '../reckon/ware/ware.ts';
import type { Standing } from '../reckon/stock/where.ts';

/** Where value stands. */
export const STANDING_WORDS: Readonly<Record<Standing, string>> = {
  materials: 'materials in stock',
  mixes: 'glaze buckets and mixed clay',
  greenware: 'greenware',
  bisqueware: 'bisqueware',
  'in-kiln': 'in the kiln',
  studio: 'finished ware, studio',
  galleries: 'finished ware, galleries',
};

/** Where it went. */
export const LEAVING_WORDS: Readonly<Record<Account, string>> = {
  sold: 'sold',
  lost: 'lost',
  given: 'given away',
  kept: 'kept',
  others: 'classes and others',
  differences: 'stocktake differences',
};
