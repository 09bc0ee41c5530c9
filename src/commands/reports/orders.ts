/** `saggar orders`: what is to be delivered to whom by when; all of it, or one order with its story. */
import { flow } from '../../reckon/flow.ts';
import { orderCharts } from '../../report/charts/ware.ts';
import { orderTable } from '../../report/making/order.ts';
import { ordersTable } from '../../report/making/orders.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import type { Report } from './show.ts';

/** The open orders by due day, or with an id one order from its day on. */
export const orders: Report<OptionsOf<'orders'>> = {
  table: ({ book, asOf }, { argument, options }) => {
    const flows = flow(book, asOf);
    if (argument === undefined) return ordersTable(book, flows, { all: options.all === true });
    return orderTable(book, flows, argument) ?? unknownId('order', argument, book.orders.values());
  },
  charts: (_, { argument, options }, table) =>
    argument !== undefined || options.all === true ? [] : orderCharts(table),
};
