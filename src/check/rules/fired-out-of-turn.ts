/** Ware goes through its firings in the product's sequence. */
import { type RuleFinding, spot } from '../finding.ts';
import { inForce, placeInForce } from '../../in-force.ts';
import type { NamedBook } from '../../book.ts';
import type { Shortfall } from '../../reckon/stock.ts';
import { short, type Rule } from '../rule.ts';

export const firedOutOfTurn: Rule = {
  name: 'fired-out-of-turn',
  severity: 'error',
  about: "A lot went into a firing that is not next in its product's sequence.",
  looks: [short(({ of }, book) => of('out-of-turn').map((each) => outOfTurn(book, each)))],
};

function outOfTurn(book: NamedBook, { at, what, because }: Shortfall): RuleFinding {
  const kind = book.firings.get(String(at.path[0]))?.kind ?? '';
  const lot = book.pieces.get(what);
  const product = book.products.get(lot?.product ?? '');
  const made = lot?.date ?? '';
  return {
    at,
    message: `this is a ${kind} firing, but ${because}`,
    hint: "correct the firing's kind or the lot, add the firing that is missing, or write refire: yes",
    ...(inForce(product, made)?.fired &&
      product && {
        related: [
          {
            at: spot(product, ...placeInForce(product, 'fired', made)),
            message: `the sequence of ${product.id}`,
          },
        ],
      }),
  };
}
