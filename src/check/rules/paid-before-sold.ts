/** Money that came before the sale may be a deposit, or a slip of the pen. */
import type { Day, Paid } from '../../book.ts';
import { spot } from '../finding.ts';
import { each, type Rule } from '../rule.ts';

export const paidBeforeSold: Rule = {
  name: 'paid-before-sold',
  severity: 'warning',
  about: 'A sale, or what is owed for missing pieces, is marked as paid before its own date.',
  looks: [
    each('sales', (sale, { say }) => {
      const { paid, date } = sale;
      if (isBefore(paid, date))
        say({
          at: spot(sale, 'paid'),
          message: `this sale of ${date} is marked as paid on ${paid}`,
          hint: 'correct one of the two dates; if it was paid ahead, leave it as it is',
        });
    }),
    each('consigned', (consigned, { say }) => {
      const { date, missing = [] } = consigned;
      missing.forEach(({ paid }, index) => {
        if (isBefore(paid, date))
          say({
            at: spot(consigned, 'missing', index, 'paid'),
            message: `what is owed for pieces missing on ${date} is marked as paid on ${paid}`,
            hint: 'correct one of the two dates',
          });
      });
    }),
  ],
};

function isBefore(paid: Paid | undefined, date: Day): paid is Day {
  return paid !== undefined && paid !== 'no' && paid < date;
}
