/** Invoices and credit notes are numbered without a gap, each once, and a credit note fits its invoice. */
import type { Sale } from '../../book.ts';
import { opposite } from '../../number/money.ts';
import { chargedFor } from '../../reckon/sales/debts.ts';
import {
  numberedSales,
  seriesFaults,
  type SeriesFaults,
} from '../../reckon/sales/invoice-numbers.ts';
import { spot, type RuleFinding } from '../finding.ts';
import { each, over, type EachScene, type ReachedBook, type Rule } from '../rule.ts';
import { mayLack } from '../unsound.ts';

const NUMBERED = { sales: { having: 'number' } } as const;

const numberTwice: Rule = {
  name: 'number-twice',
  severity: 'error',
  about:
    'Two sales have the same invoice number, as when two branches that were merged each gave it.',
  looks: [over(NUMBERED, (book) => faultsIn(book).doubles.map(sameNumber))],
};

function faultsIn(book: ReachedBook<typeof NUMBERED>): SeriesFaults {
  return seriesFaults(numberedSales(book));
}

function sameNumber([{ sale, number }, earlier]: SeriesFaults['doubles'][number]): RuleFinding {
  return {
    at: spot(sale, 'number'),
    message: `${number} is already the number of ${earlier.sale.id}`,
    hint: 'give the one that has not gone out yet another number; where both went out, give one a new number and send it again as a correction',
    related: [{ at: spot(earlier.sale, 'number'), message: 'the other sale of that number' }],
  };
}

const numberGap: Rule = {
  name: 'number-gap',
  severity: 'warning',
  about: 'Between the first and the last invoice number of a series one is left out.',
  looks: [
    over(NUMBERED, (book, unsound) =>
      mayLack(unsound, 'sales') ? [] : faultsIn(book).gaps.map(leftOut),
    ),
  ],
};

function leftOut([{ sale, number }, from, to]: SeriesFaults['gaps'][number]): RuleFinding {
  const missing = from === to ? `${from} is` : `${from} to ${to} are`;
  return {
    at: spot(sale, 'number'),
    message: `${missing} left out before ${number}`,
    hint: 'find the sale of that number, or keep a note of why there is none; a tax office may ask',
  };
}

const creditUnlike: Rule = {
  name: 'credit-unlike',
  severity: 'error',
  about:
    'A sale that credits another one sells something, is earlier, or gives back more than that one came to.',
  looks: [each('sales', lookAtCredit)],
};

function lookAtCredit(sale: Sale, { book, say }: EachScene): void {
  const credited = book.sales.get(sale.credits ?? '');
  if (!credited) return;
  const at = spot(sale, 'credits');
  const related = [{ at: spot(credited, 'date'), message: 'the sale that is credited' }];
  if (sale.lines.some(({ returned }) => returned !== 'yes'))
    say({
      at,
      message: `this credits ${credited.id}, and sells something too`,
      hint: 'write what is sold as a sale of its own, or add returned: yes to each line that came back',
    });
  else if (sale.date < credited.date)
    say({
      at,
      message: `this is of ${sale.date}, before ${credited.id} was sold on ${credited.date}`,
      hint: 'correct one of the dates, or name the sale that is meant',
      related,
    });
  else if (opposite(chargedFor(book, sale)) > chargedFor(book, credited))
    say({
      at,
      message: `more is given back than ${credited.id} came to`,
      hint: 'correct the lines, or name the sale that is meant',
      related,
    });
}

/** The rules on numbers of invoices. */
export const INVOICE_RULES: readonly Rule[] = [numberTwice, numberGap, creditUnlike];
