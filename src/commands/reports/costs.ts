/** `saggar costs`: what one good piece costs, and what it must be sold for; or one product's cost taken apart. */
import { addDays } from '../../number/date.ts';
import { flow } from '../../reckon/flow.ts';
import { costCharts, productCostCharts } from '../../report/charts/costs.ts';
import { costsTable } from '../../report/costs.ts';
import { productCostTable } from '../../report/product-cost.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import type { Report } from './show.ts';
import { askedSpan } from './span.ts';
import { isRefusal } from '../world.ts';

/** Days that are looked back over when no start is asked for. */
const WINDOW = 365;

/** Every product's cost, or with an id one product's taken apart. */
export const costs: Report<OptionsOf<'costs'>> = {
  table: ({ book, asOf }, { argument: product, options }) => {
    const asked = askedSpan(options, book, asOf);
    if (isRefusal(asked)) return asked;
    const { to, from = addDays(to, 1 - WINDOW) } = asked;
    const flows = flow(book, asOf);
    const wanted = { span: { from, to }, by: options.overheadBy ?? 'space' };
    if (product === undefined) return costsTable(book, flows, wanted);
    const table = productCostTable(book, flows, { product, ...wanted });
    return table ?? unknownId('product', product, book.products.values());
  },
  charts: (_, { argument }, table) =>
    argument === undefined ? costCharts(table) : productCostCharts(table),
};
