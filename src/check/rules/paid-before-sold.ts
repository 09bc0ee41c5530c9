/** Money that came before the sale may be a deposit, or a slip of the pen. */
import { findEach, spot } from '../finding.ts';
import type { Rule } from '../rule.ts';

export const paidBeforeSold: Rule = {
  name: 'paid-before-sold',
  severity: 'warning',
  about: 'A sale is marked as paid before its own date.',
  find: (book) =>
    findEach(book.sales, (sale, say) => {
      const { paid } = sale;
      if (paid === undefined || paid === 'no' || paid >= sale.date) return;
      say({
        at: spot(sale, 'paid'),
        message: `this sale of ${sale.date} is marked as paid on ${paid}`,
        hint: 'correct one of the two dates; if it was paid ahead, leave it as it is',
      });
    }),
};
