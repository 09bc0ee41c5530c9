/** What was ordered can be delivered: no more of it than was asked for, in time, of products that are still made. */
import type { Order } from '../../book.ts';
import { orderStandings, type Beyond, type OrderStanding } from '../../reckon/sales/orders.ts';
import { keySpot, spot, type RuleFinding } from '../finding.ts';
import { each, onDay, over, type EachScene, type ReachedBook, type Rule } from '../rule.ts';

const REACHED = { orders: 'all', sales: { having: 'for-order' } } as const;

/** After every day that a record may be of. */
const ALWAYS = '9999-12-31';

const orderOverdelivered: Rule = {
  name: 'order-overdelivered',
  severity: 'warning',
  about: 'Sales deliver more of an order than was ordered, or something that is not in it.',
  looks: [
    over(REACHED, (book) =>
      orderStandings(book, ALWAYS).flatMap(({ order, beyond }) =>
        beyond.map((delivery) => deliveredBeyond(order, delivery)),
      ),
    ),
  ],
};

function deliveredBeyond(order: Order, { sale, index, line, count }: Beyond): RuleFinding {
  const { product, class: taught, for: words } = line;
  const named = product ?? taught ?? words ?? '';
  const isIn = order.lines.some((each) => each.product === product);
  const over = line.count - count;
  const at = spot(sale, 'lines', index);
  const related = [{ at: keySpot(order), message: 'the order' }];
  if (!isIn || over === 0)
    return {
      at: spot(sale, 'lines', index, 'for-order'),
      message: `${count} ${named} delivered for ${order.id}, which ${isIn ? `has no more ${named} to deliver` : `has no ${named} in it`}`,
      hint: 'take for-order out of this line, name another order, or add what was agreed to the order',
      related,
    };
  return {
    at: { ...at, path: [...at.path, 'for-order'] },
    message: `${line.count} ${named} delivered for ${order.id}, of which only ${over} were still to deliver`,
    hint: `correct the count, write the other ${count} as a line without for-order, or correct the order`,
    related,
  };
}

const orderNotMade: Rule = {
  name: 'order-not-made',
  severity: 'warning',
  about: 'Something is still to be delivered of a product that is no longer made by then.',
  looks: [
    onDay(REACHED, (book, { day }) =>
      open(book, day).flatMap(({ order, lines }) =>
        lines.flatMap(({ line, left }, index) => {
          const { discontinued, id } = book.products.get(line.product ?? '') ?? {};
          if (left === 0 || id === undefined || discontinued === undefined) return [];
          if (discontinued > (order.due ?? day)) return [];
          return [
            {
              at: spot(order, 'lines', index, 'product'),
              message: `${left} ${id} still to deliver, but ${id} is no longer made from ${discontinued} on`,
              hint: 'name another product, correct the day of discontinued there, or agree on something else with the buyer',
            },
          ];
        }),
      ),
    ),
  ],
};

const orderOverdue: Rule = {
  name: 'order-overdue',
  severity: 'warning',
  about: 'The day that an order was promised for is past, and not all of it is delivered.',
  looks: [
    onDay(REACHED, (book, { day }) =>
      open(book, day).flatMap(({ order, lines }) => {
        const { due, date } = order;
        if (due === undefined || due >= day || due < date) return [];
        const left = lines.reduce((sum, line) => sum + line.left, 0);
        return [
          {
            at: spot(order, 'due'),
            message: `this was due on ${due}, and ${left} of it ${left === 1 ? 'is' : 'are'} not delivered`,
            hint: `write the day that is agreed on now, name ${order.id} as for-order in the sale that delivered it, or write done: with the day on which it was settled`,
          },
        ];
      }),
    ),
  ],
};

function open(book: ReachedBook<typeof REACHED>, day: string): OrderStanding[] {
  return orderStandings(book, day).filter(({ state }) => state === 'open');
}

const orderDays: Rule = {
  name: 'order-days',
  severity: 'error',
  about: 'An order is due, done or cancelled before the day on which it was ordered.',
  looks: [each('orders', lookAtOrderDays)],
};

function lookAtOrderDays(order: Order, { say }: EachScene): void {
  const { date } = order;
  const words = { due: 'is due', done: 'was done', cancelled: 'was cancelled' } as const;
  for (const key of ['due', 'done', 'cancelled'] as const) {
    const day = order[key];
    if (day === undefined || day >= date) continue;
    say({
      at: spot(order, key),
      message: `this ${words[key]} on ${day}, but was ordered on ${date}`,
      hint: `write ${date} or a later day, or correct the other date`,
    });
  }
}

/** The rules on orders. */
export const ORDER_RULES: readonly Rule[] = [
  orderOverdelivered,
  orderNotMade,
  orderOverdue,
  orderDays,
];
