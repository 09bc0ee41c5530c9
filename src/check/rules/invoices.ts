/** Invoices and credit notes are numbered without a gap, each once, and a credit note fits its invoice. */
import type { Sale } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import { NO_MONEY, less } from '../../number/money.ts';
import { chargedFor } from '../../reckon/sales/debts.ts';
import {
  numberedSales,
  seriesFaults,
  type SeriesFaults,
} from '../../reckon/sales/invoice-numbers.ts';
import { byDate } from '../../text-order.ts';
import { spot, type RuleFinding } from '../finding.ts';
import { each, over, type EachScene, type ReachedBook, type Rule } from '../rule.ts';
import { mayLack } from '../unsound.ts';

const NUMBERED = { sales: { having: 'number' } } as const;

const numberTwice: Rule = {
  name: 'number-twice',
  severity: 'error',
  about:
    'Two sales have the same invoice number, as when two branches that were merged each gave it.',
  looks: [over(NUMBERED, (book) => brokenSeries(book).doubles.map(sameNumber))],
};

function brokenSeries(book: ReachedBook<typeof NUMBERED>): SeriesFaults {
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
      mayLack(unsound, 'sales') ? [] : brokenSeries(book).gaps.map(leftOut),
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

const CREDITING = { sales: { having: 'credits' } } as const;

const creditUnlike: Rule = {
  name: 'credit-unlike',
  severity: 'error',
  about:
    'A sale that credits another one sells something, is earlier, or gives back more than that one came to.',
  looks: [each('sales', lookAtCredit), over(CREDITING, creditedTooMuch)],
};

function lookAtCredit(sale: Sale, { book, say }: EachScene): void {
  const credited = sale.credits === undefined ? undefined : book.sales.get(sale.credits);
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
}

/** Credit notes of one sale that together give back more than it came to, from the first that does. */
function creditedTooMuch(book: ReachedBook<typeof CREDITING>): readonly RuleFinding[] {
  const credits = [...book.sales.values()]
    .filter(({ credits: of }) => of !== undefined)
    .sort(byDate);
  return [...grouped(credits, (sale) => sale.credits ?? '')].flatMap(([id, sales]) => {
    const credited = book.sales.get(id);
    if (!credited) return [];
    const most = chargedFor(book, credited);
    let back = NO_MONEY;
    const beyond = sales.find((sale) => (back = less(back, chargedFor(book, sale))) > most);
    if (!beyond) return [];
    return [
      {
        at: spot(beyond, 'credits'),
        message: `more is given back than ${id} came to`,
        hint: 'correct the lines, or name the sale that is meant',
        related: [{ at: spot(credited, 'date'), message: 'the sale that is credited' }],
      },
    ];
  });
}

/** The rules on numbers of invoices. */
export const INVOICE_RULES: readonly Rule[] = [numberTwice, numberGap, creditUnlike];
