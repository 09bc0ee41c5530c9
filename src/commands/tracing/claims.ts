/** `saggar claims`: what each claim of a product rests on. */
import { inForce } from '../../in-force.ts';
import { flow } from '../../reckon/flow.ts';
import { claimsTable } from '../../report/claims/claims.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import type { Report } from '../reports/show.ts';

/** The claims of all products, or of the one that is named. */
export const claims: Report<OptionsOf<'claims'>> = {
  table: ({ book, asOf }, { argument }) => {
    const product = argument === undefined ? undefined : book.products.get(argument);
    if (argument !== undefined && !product)
      return unknownId('product', argument, book.products.values());
    return claimsTable(book, flow(book, asOf), inForce(product, asOf));
  },
};
