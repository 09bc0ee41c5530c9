/** Keeps a change from altering invoices that have a number, and so have gone out. */
import type { ChangePlan } from '../../entry/plan.ts';
import { invoicesMoved, type InvoiceMoved } from '../../reckon/sales/issued.ts';

/** Why a change can't be made: what is on a numbered invoice would be another. */
export function invoiceKept({ sides }: Pick<Partial<ChangePlan>, 'sides'>): string | undefined {
  const [moved] = sides ? invoicesMoved(sides.before, sides.after) : [];
  return moved && keptWords(moved);
}

function keptWords({ sale: { id }, number, became, isLast }: InvoiceMoved): string {
  const why =
    became === 'numbered otherwise'
      ? `${id} has the invoice number ${number}, and keeps it`
      : `${id} has gone out as the invoice ${number}, so it can be neither removed nor changed in what is on it`;
  const back = `what comes back, or was billed by mistake, is a sale of returns: saggar add sales --credits ${id} --line "1 … returned", and for its paper saggar paper credit`;
  const notOut = isLast
    ? `; only if it has not gone out yet, take its number out first: saggar amend ${id} number=`
    : '';
  return `${why}; ${back}${notOut}`;
}
