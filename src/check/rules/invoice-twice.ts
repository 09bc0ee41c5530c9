/** An invoice that was entered twice doubles stock and spending. */
import type { Bought } from '../../book.ts';
import { findEach, keySpot, spot } from '../finding.ts';
import { over, type Rule } from '../rule.ts';

export const invoiceTwice: Rule = {
  name: 'invoice-twice',
  severity: 'warning',
  about: 'Two purchases carry the same invoice number of the same supplier.',
  looks: [
    over({ bought: { having: 'invoice' } }, (book) => {
      const seen = new Map<string, Bought>();
      return findEach(book.bought, (purchase, say) => {
        if (purchase.invoice === undefined) return;
        const key = `${purchase.supplier}\n${purchase.invoice}`.toLowerCase();
        const earlier = seen.get(key);
        seen.set(key, earlier ?? purchase);
        if (earlier === undefined) return;
        say({
          at: spot(purchase, 'invoice'),
          message: `invoice ${purchase.invoice} of ${purchase.supplier} is already in ${earlier.id}`,
          hint: 'take one of the two out, unless the invoice was split on purpose',
          related: [{ at: keySpot(earlier), message: 'the other purchase' }],
        });
      });
    }),
  ],
};
